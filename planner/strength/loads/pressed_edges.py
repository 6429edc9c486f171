"""Where a screwed part presses beside its screw when it is levered off: the edge of what lies on each other there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import manifold3d
import numpy as np
from numpy.typing import NDArray

from planner.assembly import Claim, coaxial
from planner.mesh import Solid
from planner.survey import Bore

Floats = NDArray[np.float64]
SKIN_MM = 0.2
"""Sections are cut so far from the face that lies on the other part: a broken edge presses no more than it reaches."""
STRIP_MM = 1.0
"""Width of the strip along which the edge is sought; no source."""
FAR_MM = 1e4
TOUCH_MM = 0.5
"""Drawn in place, parts on one screw leave no more than this between them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """How far from a screw's axis the edge lies that its part presses on.

    Parameters
    ----------
    known_mm
        As far as the meshes tell: to the end of what both parts have there, or of this part alone. None where nothing
        of them lies there, or a mesh has faults.
    least_mm
        The least that it may be where the other part is not drawn in place, or nothing told it.
    other
        The part whose edge is not known; empty where all is.
    """

    known_mm: float | None
    least_mm: float
    other: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Footing:
    """All parts, as drawn, and the hardware in their bores."""

    solids: Mapping[str, Solid]
    claims: Sequence[Claim]

    def edge(self, claim: Claim, out: Floats, way: Floats) -> Edge:
        """Return the edge beside a screw along ``way``, at the end of its bore in this part that ``out`` points to."""
        near_mm = least_edge_mm(claim.bore)
        mouth = mouth_mm(claim.bore, out)
        mine = _section(self.solids.get(claim.part), mouth, out, way, -SKIN_MM)
        if mine is None:
            return Edge(known_mm=None, least_mm=near_mm, other=claim.part)
        drawn, away = list[Claim](), list[Claim]()
        for one in self.claims:
            if one.hardware.name == claim.hardware.name and one.part != claim.part:
                (drawn if _meets(one.bore, claim.bore, mouth) else away).append(one)
        for one in drawn:
            theirs = _section(self.solids.get(one.part), mouth, out, way, SKIN_MM)
            if theirs is None:
                return Edge(known_mm=None, least_mm=least_edge_mm(one.bore), other=one.part)
            mine = mine ^ theirs
        known_mm = _reach_mm(mine)
        if known_mm < claim.bore.drawn_diameter_mm / 2.0:  # a face that is not flat there
            return Edge(known_mm=None, least_mm=near_mm, other=claim.part)
        if drawn or not away:
            return Edge(known_mm=known_mm, least_mm=known_mm)
        narrow = min(away, key=lambda one: least_edge_mm(one.bore))
        return Edge(known_mm=known_mm, least_mm=min(known_mm, least_edge_mm(narrow.bore)), other=narrow.part)


def least_edge_mm(bore: Bore) -> float:
    """Return the least distance from a bore's axis to an edge of its part: its wall's, if that is known."""
    return bore.drawn_diameter_mm / 2.0 + (bore.edge_wall_mm or 0.0)


def mouth_mm(bore: Bore, out: Floats) -> Floats:
    """Return the end of a bore that a unit vector along its axis points to."""
    return np.array(bore.centre_mm) + out * bore.depth_mm / 2.0


def _meets(other: Bore, bore: Bore, mouth: Floats) -> bool:
    """Return whether another part's bore begins where a bore ends, on its axis."""
    ends = [np.array(other.centre_mm) + sign * np.array(other.axis) * other.depth_mm / 2.0 for sign in (-1.0, 1.0)]
    return coaxial(other, bore) and min(float(np.linalg.norm(end - mouth)) for end in ends) <= TOUCH_MM


def _section(
    solid: Solid | None, mouth: Floats, out: Floats, way: Floats, at_mm: float
) -> manifold3d.CrossSection | None:
    """Return the section of a solid square to ``out``, with ``way`` as its first axis; None where it cannot be cut."""
    body = None if solid is None else solid.manifold
    if body is None:
        return None
    turn = np.array([way, np.cross(out, way), out])
    return body.transform(np.column_stack([turn, -turn @ mouth])).slice(at_mm)


def _reach_mm(section: manifold3d.CrossSection) -> float:
    """Return how far a section reaches along its first axis, in a strip about that; 0 where nothing lies in it."""
    strip = manifold3d.CrossSection.square((FAR_MM, STRIP_MM)).translate((0.0, -STRIP_MM / 2.0))
    cut = section ^ strip
    return 0.0 if cut.is_empty() else float(cut.bounds()[2])

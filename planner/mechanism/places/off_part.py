"""Whether a place that a job states lies on the part that it names: a force or a cord acts on matter, not on air."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import trimesh
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.job import Job, part_of
from planner.mechanism.places.frame import Frame
from planner.mesh import Solid
from planner.phrases import numbers
from planner.survey import Bore, Slot, Survey

Floats = NDArray[np.float64]
OFF_MM = 5.0
"""A place farther off all matter than this, at drawn size, lies on nothing: about the width of a hook's mouth or half
a finger's pad; no source."""
INSIDE = 0.5
"""Turns of the surface about a point, as a share of a whole one, from which on it lies inside."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Landing:
    """What a place may lie on: the copies of a device in place, and which of them are one body.

    Parameters
    ----------
    frames
        Where copies stand as drawn; those without a place count for nothing but themselves.
    groups
        Copies that move as one.
    """

    job: Job
    solids: Mapping[str, Solid]
    surveys: Mapping[str, Survey]
    frames: Mapping[str, Frame]
    groups: Sequence[Collection[str]]

    def off_words(self, copy: str, at_mm: Vec3, said: str) -> str:
        """Return in words how far a place, in a copy's mesh, lies off it and all that is fast to it; empty if on it.

        Openings belong to a part: a pin's middle lies in its bore, webbing in its slot. So does padding.
        """
        off_mm = self.off_mm(copy, at_mm)
        if off_mm <= OFF_MM:
            return ""
        return (
            f"{said} at [{numbers(at_mm)}] mm lies {off_mm:.1f} mm off {copy} and all that is fast to it, "
            "where nothing carries a force"
        )

    def off_mm(self, copy: str, at_mm: Vec3) -> float:
        """Return how far a place, in a copy's mesh, lies off the matter and the openings of its body; 0 on them."""
        body = next((group for group in self.groups if copy in group), ())
        least_mm = self._off_one_mm(part_of(copy), at_mm)
        if least_mm <= OFF_MM or copy not in self.frames:
            return least_mm
        drawn = self.frames[copy].point(at_mm)
        fast = [one for one in body if one in self.frames and one != copy]
        others = (self._off_one_mm(part_of(one), self.frames[one].inverse().point(drawn)) for one in fast)
        return min([least_mm, *others])

    def _off_one_mm(self, part: str, at_mm: Vec3) -> float:
        """Return how far a place lies off one part, in its mesh."""
        if part not in self.solids or part not in self.surveys:
            return math.inf
        survey, solid = self.surveys[part], self.solids[part]
        point = np.array(at_mm)
        if _in_bores(survey.bores, point) or any(_in_slot(one, point) for one in survey.slots):
            return 0.0
        padded_mm = max((one.thickness_mm for one in self.job.paddings if one.part == part), default=0.0)
        away_mm = max(surface_mm(solid, at_mm) - padded_mm, 0.0)
        return 0.0 if away_mm > OFF_MM and inside(solid, at_mm) else away_mm


def surface_mm(solid: Solid, at_mm: Vec3) -> float:
    """Return how far a point lies from the surface of a solid."""
    corners = solid.corners_mm
    near = trimesh.triangles.closest_point(corners, np.tile(at_mm, (len(corners), 1)))  # type: ignore[no-untyped-call]
    return float(np.sqrt(((near - np.array(at_mm)) ** 2).sum(axis=1).min()))


def inside(solid: Solid, at_mm: Vec3) -> bool:
    """Return whether a point lies in a solid, by the solid angle of all its triangles.

    The formula of van Oosterom and Strackee (1983, doi:10.1109/TBME.1983.325207, from memory); a small hole in a mesh
    changes it little.
    """
    a, b, c = (solid.corners_mm[:, k] - np.array(at_mm) for k in range(3))
    la, lb, lc = (np.linalg.norm(side, axis=1) for side in (a, b, c))
    top = np.einsum("ij,ij->i", a, np.cross(b, c))
    dots = ((x * y).sum(axis=1) for x, y in ((a, b), (b, c), (c, a)))
    ab, bc, ca = dots
    angles = 2.0 * np.arctan2(top, la * lb * lc + ab * lc + bc * la + ca * lb)
    return bool(abs(angles.sum()) / (4.0 * math.pi) > INSIDE)


def _in_bores(bores: Sequence[Bore], point: Floats) -> bool:
    """Return whether a point lies in a bore, between two on one axis, or before a mouth by what counts as on a part."""
    sides = set[bool]()
    for bore in bores:
        axis, off = np.array(bore.axis), point - np.array(bore.centre_mm)
        along = float(off @ axis)
        if np.linalg.norm(off - along * axis) <= bore.drawn_diameter_mm / 2.0:
            if abs(along) <= bore.depth_mm / 2.0 + OFF_MM:
                return True
            upward = bool(axis[np.argmax(np.abs(axis))] > 0.0)  # two bores on one line may look different ways
            sides.add((along > 0.0) == upward)
    return len(sides) == 2


def _in_slot(slot: Slot, point: Floats) -> bool:
    """Return whether a point lies in a slot, or before its mouth by no more than what counts as on the part."""
    off = point - np.array(slot.at_mm)
    length, deep = np.array(slot.length_axis), np.array(slot.deep_axis)
    sides = (slot.length_mm / 2.0, slot.depth_mm / 2.0 + OFF_MM, slot.width_mm / 2.0)
    ways = (length, deep, np.cross(length, deep))
    return all(abs(float(off @ way)) <= half for way, half in zip(ways, sides, strict=True))

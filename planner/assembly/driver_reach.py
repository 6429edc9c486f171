"""Reach: whether a driver's straight way to a screw is free of parts, where parts are drawn in place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import manifold3d
import numpy as np

from planner.assembly.bore_axes import coaxial
from planner.assembly.claim import Claim
from planner.assembly.drawn_in_place import drawn_in_place
from planner.job import Hardware, Job
from planner.mesh import Solid
from planner.survey import Bore

DRIVER_MM = 100.0
"""Length of the straight way that a driver and the hand behind it take; common practice, no source."""
START_MM = 0.3
"""The way begins so far outside the bores, so that the face beside the bore is not in it."""
TOUCH_MM3 = 0.1
"""Less than this of a part in the way is its rounding."""
SHANK_SHARE = 0.45
"""What the screw joins is in the way only where it closes the bore's own axis: a head may sit in a pocket of it."""


def head_mm(diameter_mm: float) -> float:
    """Return the diameter of a screw's head: 1.5 d + 1 (ISO 4762:2004, table 1: 5.5, 7, 8.5 for M3, M4, M5).

    >>> [head_mm(d) for d in (3.0, 4.0, 5.0)]
    [5.5, 7.0, 8.5]
    """
    return 1.5 * diameter_mm + 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Ways:
    """What stands in the ways to one kind of hardware.

    ``axes`` holds for every axis the parts in the way at either end; an end that the joined parts themselves close is
    left out. ``both`` where both ends must be free: a head at one, a nut or the post's half at the other. ``known``
    are the parts whose place is known; ``unknown`` says why nothing could be judged, and is empty where it was.
    """

    hardware: str
    axes: tuple[tuple[frozenset[str], ...], ...]
    both: bool
    known: frozenset[str]
    unknown: str = ""

    def blocked_by(self, mounted: frozenset[str]) -> frozenset[str]:
        """Return the mounted parts that must not be there yet; empty where every axis is free."""
        found: frozenset[str] = frozenset()
        for ends in self.axes:
            standing = [end & mounted for end in ends]
            if self.both:
                found |= frozenset().union(*standing)
            elif standing and all(standing):
                found |= min(standing, key=lambda end: (len(end), sorted(end)))
        return found

    @property
    def closed_n(self) -> int:
        """Number of axes that the joined parts themselves close at every end that is needed."""
        return sum(not ends for ends in self.axes)


def ways_of(job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim], scale: float = 1.0) -> dict[str, Ways]:
    """Return the ways to every screw and post by its name, judged in the drawn frame at a scale (1 as drawn).

    Hardware keeps its size, so its ways are narrower in the drawn frame by the scale. A nut, washer or insert is put
    in before its screw and needs no way of its own here.
    """
    groups = drawn_in_place(job, solids, claims)
    held = {part for h in job.hardware if h.kind in ("nut", "insert") for part in h.joins}
    found = {}
    for hardware in job.hardware:
        if hardware.kind not in ("machine-screw", "wood-screw", "binding-post"):
            continue
        mine = [claim for claim in claims if claim.hardware.name == hardware.name]
        group = next((group for group in groups if set(hardware.joins) <= group), None)
        both = not (hardware.kind == "wood-screw" or hardware.fit == "pilot" or held & set(hardware.joins))
        if group is None or not mine:
            why = "no bore of it is known" if not mine else f"place of {' and '.join(hardware.joins)} not known"
            found[hardware.name] = Ways(
                hardware=hardware.name, axes=(), both=both, known=frozenset(hardware.joins), unknown=why
            )
            continue
        axes = tuple(_ends(hardware, bores, {name: solids[name] for name in group}, scale) for bores in _axes(mine))
        found[hardware.name] = Ways(hardware=hardware.name, axes=axes, both=both, known=group)
    return found


def _axes(claims: Sequence[Claim]) -> list[list[Bore]]:
    """Return the bores that lie on one axis, axis by axis."""
    axes: list[list[Bore]] = []
    for claim in claims:
        mine = next((axis for axis in axes if coaxial(axis[0], claim.bore)), None)
        if mine is None:
            axes.append([claim.bore])
        else:
            mine.append(claim.bore)
    return axes


def _ends(
    hardware: Hardware, bores: Sequence[Bore], solids: Mapping[str, Solid], scale: float
) -> tuple[frozenset[str], ...]:
    """Return the parts in the way at each end of one axis; an end that a joined part closes is left out."""
    axis = np.asarray(bores[0].axis, dtype=np.float64)
    middle = np.asarray(bores[0].centre_mm, dtype=np.float64)
    reach = [float((np.asarray(b.centre_mm) - middle) @ axis) + k * b.depth_mm / 2 for b in bores for k in (-1, 1)]
    ends = []
    for way, at in ((axis, max(reach)), (-axis, -min(reach))):
        start = middle + way * (at + START_MM)
        shank = _tube(start, way, SHANK_SHARE * hardware.diameter_mm / scale)
        head = _tube(start, way, head_mm(hardware.diameter_mm) / 2 / scale)
        if any(_stands(solids[name], shank) for name in hardware.joins):
            continue
        ends.append(frozenset(n for n, solid in solids.items() if n not in hardware.joins and _stands(solid, head)))
    return tuple(ends)


def _tube(start: np.ndarray, way: np.ndarray, radius_mm: float) -> manifold3d.Manifold:
    """Return a driver's way from a point along a unit vector."""
    across = np.eye(3)[int(np.argmin(np.abs(way)))]
    x = np.cross(across, way)
    x /= np.linalg.norm(x)
    turn = np.column_stack([x, np.cross(way, x), way, start])
    return manifold3d.Manifold.cylinder(DRIVER_MM, radius_mm, radius_mm, 32).transform(turn)


def _stands(solid: Solid, way: manifold3d.Manifold) -> bool:
    """Return whether a part stands in a way."""
    return solid.manifold is not None and float((solid.manifold ^ way).volume()) > TOUCH_MM3

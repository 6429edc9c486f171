"""Reach: whether a driver's straight way to a screw is free of parts, where it is known where parts stand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import manifold3d
import numpy as np

from planner.assembly.bore_axes import coaxial
from planner.assembly.claim import Claim
from planner.assembly.copies_at_places import CopiesAtPlaces, stood
from planner.assembly.drawn.drawn_in_place import drawn_in_place
from planner.assembly.screw_grips import cuts_thread
from planner.assembly.screw_heads import head_mm
from planner.job import Hardware, Job
from planner.mesh import Solid
from planner.phrases import listed
from planner.survey import Bore

DRIVER_MM = 100.0
"""Length of the straight way that a driver and the hand behind it take; common practice, no source."""
START_MM = 0.3
"""The way begins so far outside the bores, so that the face beside the bore is not in it."""
TOUCH_MM3 = 0.1
"""Less than this of a part in the way is its rounding."""
SHANK_SHARE = 0.45
"""What the screw joins is in the way only where it closes the bore's own axis: a head may sit in a pocket of it."""


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
    there = stood(job, solids, claims, scale)
    held = {part for h in job.hardware if h.kind in ("nut", "insert") for part in h.joins}
    found = {}
    for hardware in job.hardware:
        if hardware.kind not in ("machine-screw", "wood-screw", "binding-post"):
            continue
        mine = [claim.bore for claim in claims if claim.hardware.name == hardware.name]
        both = not (hardware.kind == "wood-screw" or cuts_thread(hardware) or held & set(hardware.joins))
        group = next((group for group in groups if set(hardware.joins) <= group), None)
        here: CopiesAtPlaces | None = there if set(hardware.joins) <= there.whole else None
        if here is None and group is not None:
            here = _as_drawn(group, solids)
        if here is None or not mine:
            why = "no bore of it is known" if not mine else f"where {listed(hardware.joins)} stand is not known"
            found[hardware.name] = Ways(
                hardware=hardware.name, axes=(), both=both, known=frozenset(hardware.joins), unknown=why
            )
            continue
        bores = here.claimed(hardware.name) if here is there else mine
        axes = tuple(_ends(hardware, axis, here, scale) for axis in _axes(bores))
        found[hardware.name] = Ways(hardware=hardware.name, axes=axes, both=both, known=here.whole)
    return found


def _as_drawn(group: frozenset[str], solids: Mapping[str, Solid]) -> CopiesAtPlaces:
    """Return the parts of a group that is drawn in place, as they stand there."""
    bodies = {name: body for name in group if (body := solids[name].manifold) is not None}
    return CopiesAtPlaces(part={name: name for name in bodies}, body=bodies, bores={}, whole=group)


def _axes(bores: Sequence[Bore]) -> list[list[Bore]]:
    """Return the bores that lie on one axis, axis by axis."""
    axes: list[list[Bore]] = []
    for bore in bores:
        mine = next((axis for axis in axes if coaxial(axis[0], bore)), None)
        if mine is None:
            axes.append([bore])
        else:
            mine.append(bore)
    return axes


def _ends(hardware: Hardware, bores: Sequence[Bore], here: CopiesAtPlaces, scale: float) -> tuple[frozenset[str], ...]:
    """Return the parts in the way at each end of one axis; an end that a joined part closes is left out."""
    axis = np.asarray(bores[0].axis, dtype=np.float64)
    middle = np.asarray(bores[0].centre_mm, dtype=np.float64)
    reach = [float((np.asarray(b.centre_mm) - middle) @ axis) + k * b.depth_mm / 2 for b in bores for k in (-1, 1)]
    joined = [copy for copy, part in here.part.items() if part in hardware.joins]
    others = [copy for copy in here.part if copy not in joined]
    ends = []
    for way, at in ((axis, max(reach)), (-axis, -min(reach))):
        start = middle + way * (at + START_MM)
        shank = _tube(start, way, SHANK_SHARE * hardware.diameter_mm / scale)
        head = _tube(start, way, head_mm(hardware.diameter_mm) / 2 / scale)
        if any(_stands(here.body[copy], shank) for copy in joined):
            continue
        ends.append(frozenset(here.part[copy] for copy in others if _stands(here.body[copy], head)))
    return tuple(ends)


def _tube(start: np.ndarray, way: np.ndarray, radius_mm: float) -> manifold3d.Manifold:
    """Return a driver's way from a point along a unit vector."""
    across = np.eye(3)[int(np.argmin(np.abs(way)))]
    x = np.cross(across, way)
    x /= np.linalg.norm(x)
    turn = np.column_stack([x, np.cross(way, x), way, start])
    return manifold3d.Manifold.cylinder(DRIVER_MM, radius_mm, radius_mm, 32).transform(turn)


def _stands(body: manifold3d.Manifold, way: manifold3d.Manifold) -> bool:
    """Return whether a body stands in a way; most do not even come near."""
    one, other = np.array(body.bounding_box()), np.array(way.bounding_box())
    if (one[:3] > other[3:]).any() or (other[:3] > one[3:]).any():
        return False
    return float((body ^ way).volume()) > TOUCH_MM3

"""Hardware as simple solids on the axes that it lies in: a shank, heads and nuts, for pictures only."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from planner.assembly import claims_of
from planner.job import Hardware, part_of
from planner.mechanism import STILL, BoreStack, bore_stacks
from planner.mesh import Solid
from planner.output.line_drawing.copies_standing import Standing
from planner.output.line_drawing.scene import Body
from planner.output.line_drawing.view_grid import Floats, Ints
from planner.plan import Plan

HEAD_WIDE, HEAD_HIGH, NUT_WIDE, NUT_HIGH = 1.8, 0.6, 1.85, 0.8
"""Over the diameter; near the proportions of ISO 4762 and ISO 4032 (from memory)."""
SEATS = ("nut", "insert", "bearing", "washer")
HEADED = ("machine-screw", "wood-screw", "binding-post")
SIDES_N = 20
CLEAR_MM = 60.0
"""A way in is free where the axis meets nothing so far out."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class PlacedAxis:
    """One place of a piece of hardware: its ends in the device, and the parts that it goes through."""

    hardware: Hardware
    ends_mm: tuple[Floats, Floats]
    parts: frozenset[str]
    through: bool

    @property
    def way(self) -> Floats:
        """The unit vector from the first end to the second."""
        found: Floats = (self.ends_mm[1] - self.ends_mm[0]) / np.linalg.norm(self.ends_mm[1] - self.ends_mm[0])
        return found

    def turned(self) -> PlacedAxis:
        """Return the same with its ends the other way round."""
        return PlacedAxis(
            hardware=self.hardware,
            ends_mm=(self.ends_mm[1], self.ends_mm[0]),
            parts=self.parts,
            through=self.through,
        )


def hardware_axes(plan: Plan, standing: Standing) -> dict[str, list[PlacedAxis]]:
    """Return the places of every piece of hardware whose bores are known in placed copies, by its name."""
    claims = claims_of(plan.job, {part.part.name: part.survey for part in plan.parts}).claims
    stacks = bore_stacks(claims, standing.drawn)
    found: dict[str, list[PlacedAxis]] = {}
    for stack in stacks:
        for name in dict.fromkeys(one.claim.hardware.name for one in stack.bores):
            found.setdefault(name, []).append(_axis(stack, name, standing))
    return found


def _axis(stack: BoreStack, name: str, standing: Standing) -> PlacedAxis:
    """Return where one piece of hardware lies in a stack: its own bores where it sits in one, else all of them."""
    first = stack.bores[0]
    mine = [one for one in stack.bores if one.claim.hardware.name == name]
    hardware = mine[0].claim.hardware
    low, high = stack.ends_mm
    if hardware.kind in SEATS or len(hardware.joins) < 2:
        middles = [
            float((np.asarray(b.bore.centre_mm) - first.bore.centre_mm) @ np.asarray(first.bore.axis)) for b in mine
        ]
        low = min(m - b.bore.depth_mm / 2 for m, b in zip(middles, mine, strict=True))
        high = max(m + b.bore.depth_mm / 2 for m, b in zip(middles, mine, strict=True))
    moved = standing.frames.get(first.copy, STILL).after(standing.drawn.get(first.copy, STILL).inverse())
    centre, way = np.asarray(first.bore.centre_mm), np.asarray(first.bore.axis)
    ends = tuple(standing.point(np.asarray(moved.point(centre + way * at))) for at in (low, high))
    return PlacedAxis(
        hardware=hardware,
        ends_mm=(ends[0], ends[1]),
        parts=frozenset(part_of(copy) for copy in stack.copies),
        through=all(one.bore.through for one in stack.bores),
    )


Standers = Sequence[tuple[Floats, Floats, Floats]]
"""What may stand in a way: the least and greatest corner of each body, and its triangles (n, 3, 3)."""


def headed(axis: PlacedAxis, there: Standers) -> tuple[PlacedAxis, bool]:
    """Return an axis with the end first from which it can come in, and whether that way is free of what is there."""
    for tried in (axis, axis.turned()):
        start = tried.ends_mm[0] - 0.2 * tried.way
        end = start - tried.way * CLEAR_MM
        low, high = np.minimum(start, end), np.maximum(start, end)
        near = [mesh for least, most, mesh in there if np.all(high >= least) and np.all(low <= most)]
        if not any(_meets(start, -tried.way, corners) for corners in near):
            return tried, True
    return axis, False


def _meets(start: Floats, way: Floats, corners: Floats) -> bool:
    """Return whether a ray meets a triangle within ``CLEAR_MM`` (Möller and Trumbore 1997)."""
    one, other = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    across = np.cross(way, other)
    size = np.einsum("ij,ij->i", one, across)
    good = np.abs(size) > 1e-12
    away = start - corners[:, 0]
    u = np.divide(np.einsum("ij,ij->i", away, across), size, out=np.full(len(size), -1.0), where=good)
    turned = np.cross(away, one)
    v = np.divide(turned @ way, size, out=np.full(len(size), -1.0), where=good)
    far = np.divide(np.einsum("ij,ij->i", other, turned), size, out=np.full(len(size), -1.0), where=good)
    return bool(np.any((u >= 0) & (v >= 0) & (u + v <= 1) & (far > 0) & (far < CLEAR_MM)))


def hardware_body(axis: PlacedAxis, *, nut: bool) -> Body:
    """Return one piece on its axis, its head at the first end; ``nut`` puts one on the other."""
    hardware, d = axis.hardware, axis.hardware.diameter_mm
    long = float(np.linalg.norm(axis.ends_mm[1] - axis.ends_mm[0]))
    if hardware.kind in SEATS:
        sides, wide = (6, NUT_WIDE) if hardware.kind == "nut" else (SIDES_N, 1.6)
        pieces = [_prism(sides, wide * d / 2, 0.0, max(min(long, NUT_HIGH * d), 0.6))]
    else:
        tail = NUT_HIGH * d + 1.0 if nut and axis.through else 0.0
        pieces = [_prism(SIDES_N, d / 2, 0.0 if hardware.kind in HEADED else -0.5, long + tail)]
        if hardware.kind in HEADED:
            pieces.append(_prism(SIDES_N, HEAD_WIDE * d / 2, -HEAD_HIGH * d, 0.0))
        if hardware.kind == "binding-post":
            pieces.append(_prism(SIDES_N, HEAD_WIDE * d / 2, long, long + HEAD_HIGH * d))
        if nut and axis.through:
            pieces.append(_prism(6, NUT_WIDE * d / 2, long, long + NUT_HIGH * d))
    vertices, faces, count = [], [], 0
    for points, triangles in pieces:
        vertices.append(points)
        faces.append(triangles + count)
        count += len(points)
    solid = Solid(name=hardware.name, vertices_mm=np.vstack(vertices), faces=np.vstack(faces), sha256="")
    return Body(solid=solid, turn=_onto(axis.way), shift_mm=axis.ends_mm[0])


def _onto(way: Floats) -> Floats:
    """Return a rotation that takes z to a unit vector."""
    across = np.cross(way, np.eye(3)[int(np.argmin(np.abs(way)))])
    across /= np.linalg.norm(across)
    return np.column_stack([across, np.cross(way, across), way])


def _prism(sides_n: int, radius_mm: float, low_mm: float, high_mm: float) -> tuple[Floats, Ints]:
    """Return corners and faces of an upright prism."""
    turn = 2 * np.pi * np.arange(sides_n) / sides_n
    ring = np.column_stack([np.cos(turn), np.sin(turn)]) * radius_mm
    points = np.vstack([np.column_stack([ring, np.full(sides_n, z)]) for z in (low_mm, high_mm)])
    k = np.arange(sides_n, dtype=np.int64)
    after, up = (k + 1) % sides_n, k + sides_n
    walls = [np.column_stack([k, after, after + sides_n]), np.column_stack([k, after + sides_n, up])]
    fan = np.column_stack([np.zeros(sides_n - 2, dtype=np.int64), k[1:-1], k[1:-1] + 1])
    return points, np.vstack([*walls, fan[:, ::-1], fan + sides_n])

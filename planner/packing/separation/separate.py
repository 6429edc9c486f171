"""Separate what overlaps: units thrown onto a number of beds find places on any of them, or the effort is spent."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
import shapely.affinity
from numpy.typing import NDArray

from planner.packing.layout.packed_unit import Layout, Spot, Unit
from planner.packing.search.effort import STEP_S, Effort
from planner.packing.separation.bed_state import FIXED, State
from planner.packing.separation.overlap import put
from planner.packing.separation.poles import poles_of
from planner.packing.separation.rounds import rounds

SIMPLIFY_MM = 0.04
"""Outlines are grown a little more and then simplified by as much."""
STALE_N = 200
"""Rounds without less overlap after which the search gives up."""


class Separator:
    """Outlines of one search, ready to be separated on beds of one ground."""

    def __init__(self, units: Sequence[Unit], ground: shapely.Polygon, apart_mm: float) -> None:
        room = ground.buffer(apart_mm / 2, join_style="mitre")
        x0, y0, x1, y1 = self.bounds = room.bounds
        self.room_mm = (x1 - x0, y1 - y0)
        self.fixed = [_framed(shapely.affinity.translate(p, -x0, -y0)) for p in _around(room)]
        made: dict[str, tuple[NDArray[np.float64], ...]] = {}
        for unit in units:
            if unit.kind not in made:
                made[unit.kind] = _framed(_grown(unit.shape, apart_mm / 2))
        self.framed = [made[unit.kind] for unit in units]
        self.grown_mm2 = [float(unit.shape.buffer(apart_mm / 2, quad_segs=4).area) for unit in units]

    def apart(
        self, plates: Sequence[Layout], loose: Sequence[int], seed: int, effort: Effort, stale_n: int = STALE_N
    ) -> list[Layout] | None:
        """Return layouts of the same units on as many beds without overlap; None where none is found.

        ``loose`` are units besides those on the plates: they are thrown in at random. The search goes on while
        there is effort left, and until so many rounds in a row brought no less overlap.
        """
        state, keys = self.state(plates, loose, seed)
        return self.layouts(state, keys, len(plates)) if separated(state, len(plates), seed, effort, stale_n) else None

    def state(self, plates: Sequence[Layout], loose: Sequence[int], seed: int) -> tuple[State, list[int]]:
        """Return outlines where they lie, and the units that they are."""
        keys = [k for plate in plates for k in plate] + list(loose)
        rows = [self.framed[k] for k in keys] + self.fixed
        state = empty_state(len(rows), sum(len(ring) for ring, _, _ in rows), sum(len(poles) for _, poles, _ in rows))
        state.room[:] = self.room_mm
        state.ends[1:] = np.cumsum([len(ring) for ring, _, _ in rows])
        state.pole_ends[1:] = np.cumsum([len(poles) for _, poles, _ in rows])
        state.ring[:], state.poles[:] = (np.concatenate([row[i] for row in rows]) for i in (0, 1))
        numbers = np.array([row[2] for row in rows])
        state.size[:], state.reach[:], state.turns[:] = numbers[:, 2], numbers[:, 3], numbers[:, 4]
        buffers = np.zeros_like(state.ring), np.zeros_like(state.poles), np.zeros(4)
        rng = np.random.default_rng(seed)
        places = {k: (number, spot) for number, plate in enumerate(plates) for k, spot in plate.items()}
        for i, k in enumerate(keys):
            if k in places:
                number, spot = places[k]
                put(state, i, self._inner(numbers[i], spot), number, *buffers)
            else:
                at = np.array([*(rng.random(2) * self.room_mm), state.turns[i]])
                put(state, i, at, int(rng.integers(len(plates))), *buffers)
        state.beds[len(keys) :] = FIXED
        for i in range(len(keys), len(rows)):
            put(state, i, np.array([numbers[i, 0], numbers[i, 1], 0.0]), FIXED, *buffers)
        return state, keys

    def _inner(self, numbers: NDArray[np.float64], spot: Spot) -> NDArray[np.float64]:
        """Return the middle and the turn of an outline at a spot, in the bed's own corner."""
        turn = np.radians(spot.turn_deg)
        c, s = np.cos(turn), np.sin(turn)
        x, y = numbers[0] * c - numbers[1] * s, numbers[0] * s + numbers[1] * c
        return np.array([x + spot.shift_mm[0] - self.bounds[0], y + spot.shift_mm[1] - self.bounds[1], turn])

    def layouts(self, state: State, keys: Sequence[int], beds_n: int) -> list[Layout]:
        """Return spots as the rest of the search knows them."""
        plates: list[Layout] = [{} for _ in range(beds_n)]
        for i, k in enumerate(keys):
            if state.beds[i] < 0:
                continue
            x, y, turn = (float(v) for v in state.spots[i])
            mx, my = self.framed[k][2][:2]
            c, s = np.cos(turn), np.sin(turn)
            shift = x - (mx * c - my * s) + self.bounds[0], y - (mx * s + my * c) + self.bounds[1]
            spot = Spot(turn_deg=float(np.degrees(turn)) % 360.0, shift_mm=(float(shift[0]), float(shift[1])))
            plates[int(state.beds[i])][k] = spot
        return plates


def empty_state(outlines_n: int, corners_n: int, poles_n: int) -> State:
    """Return a state of zeros of a size."""
    n = outlines_n
    return State(
        ring=np.zeros((corners_n, 2)),
        ends=np.zeros(n + 1, dtype=np.int64),
        poles=np.zeros((poles_n, 3)),
        pole_ends=np.zeros(n + 1, dtype=np.int64),
        size=np.ones(n),
        reach=np.ones(n),
        turns=np.zeros(n),
        spots=np.zeros((n, 3)),
        beds=np.zeros(n, dtype=np.int64),
        at=np.zeros((corners_n, 2)),
        poles_at=np.zeros((poles_n, 3)),
        boxes=np.zeros((n, 4)),
        weights=np.ones((n, n)),
        room=np.zeros(2),
        steps=np.zeros(1, dtype=np.int64),
    )


def separated(state: State, beds_n: int, seed: int, effort: Effort, stale_n: int) -> bool:
    """Move outlines of a state until none overlap; false where so many rounds in a row brought no less overlap."""
    least, stale, number = np.inf, 0, 0
    while stale < stale_n and effort.goes_on:
        before = int(state.steps[0])
        left = rounds(state, beds_n, seed * 100_003 + number, 1)
        effort.spend(STEP_S * (int(state.steps[0]) - before))
        if left == 0.0:
            return True
        least, stale, number = (left, 0, number + 1) if left < 0.98 * least else (least, stale + 1, number + 1)
    return False


def _grown(outline: shapely.Polygon, by_mm: float) -> shapely.Polygon:
    """Return the outer ring of an outline grown by a margin, never smaller, with few corners."""
    shape = shapely.Polygon(outline.exterior).buffer(by_mm + SIMPLIFY_MM, quad_segs=6).simplify(SIMPLIFY_MM)
    return shapely.Polygon(shape.exterior)


def _around(room: shapely.Polygon) -> list[shapely.Polygon]:
    """Return what of a room's box is not room, in pieces without holes."""
    x0, y0, x1, y1 = room.bounds
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    quarters = [shapely.box(*q) for q in ((x0, y0, x, y), (x, y0, x1, y), (x, y, x1, y1), (x0, y, x, y1))]
    pieces = [piece for q in quarters for piece in shapely.get_parts(q.difference(room))]
    kept = [piece for piece in pieces if piece.geom_type == "Polygon" and piece.area > 1e-3]
    return [part for piece in kept for part in ([piece] if not piece.interiors else _around_holes(piece))]


def _around_holes(piece: shapely.Polygon) -> list[shapely.Polygon]:
    """Return a polygon with holes as triangles."""
    return [shapely.Polygon(t) for t in shapely.get_parts(shapely.constrained_delaunay_triangles(piece))]


def _framed(shape: shapely.Polygon) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Return ring and circles about the shape's middle, and (middle x, y, size, reach, aligned turn in rad)."""
    ring = np.asarray(shape.exterior.coords)[:-1]
    poles = poles_of(shape)
    middle = (ring.min(axis=0) + ring.max(axis=0)) / 2
    least = np.asarray(shapely.minimum_rotated_rectangle(shape).exterior.coords)
    edge = least[1] - least[0]
    reach = float(np.hypot(*(ring.max(axis=0) - ring.min(axis=0))))
    size = float(shape.convex_hull.area) ** 0.25
    poles[:, :2] -= middle
    return ring - middle, poles, np.array([*middle, size, reach, -np.arctan2(edge[1], edge[0])])

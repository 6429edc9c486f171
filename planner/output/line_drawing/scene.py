"""Solids in their places, seen from one side: each is put on the grid once, then any of them are drawn together."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

import numpy as np

from planner.mesh import Solid
from planner.output.drawing.shapes import Point, Shape
from planner.output.line_drawing.edge_lines import EdgeSamples, MeshEdges, chained, edge_samples, mesh_edges
from planner.output.line_drawing.mask_rings import mask_rings
from planner.output.line_drawing.view_grid import Floats, Grid, View, depth_on, grid_over

CORD_MM = 1.5
"""A cord this far inside a surface lies in its groove."""
LONGEST_PX = 1400
"""Pixels along the longer side of a scene: a device of 350 mm is cut true to 0.25 mm, and drawn as lines."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class Body:
    """A solid and where it stands: ``turn @ p + shift_mm``."""

    solid: Solid
    turn: Floats
    shift_mm: Floats

    @property
    def points_mm(self) -> Floats:
        """Its corners, in place."""
        found: Floats = self.solid.vertices_mm @ self.turn.T + self.shift_mm
        return found

    @property
    def facts(self) -> tuple[bytes, ...]:
        """What a drawing of it depends on."""
        arrays = (self.solid.vertices_mm, self.solid.faces, self.turn, self.shift_mm)
        return tuple(np.ascontiguousarray(array).tobytes() for array in arrays)


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame2:
    """A rectangle of a view, in mm of the device, and how large a mm of it is drawn."""

    low_mm: tuple[float, float]
    high_mm: tuple[float, float]
    ratio: float

    @property
    def size_mm(self) -> tuple[float, float]:
        """Width and height as drawn."""
        return (
            (self.high_mm[0] - self.low_mm[0]) * self.ratio,
            (self.high_mm[1] - self.low_mm[1]) * self.ratio,
        )

    def at(self, flat: Floats) -> Point:
        """Return where a flat point is drawn."""
        return (float(flat[0]) - self.low_mm[0]) * self.ratio, (float(flat[1]) - self.low_mm[1]) * self.ratio


class Scene:
    """Bodies by name in one view."""

    def __init__(
        self,
        bodies: Mapping[str, Body],
        view: View,
        longest_n: int = LONGEST_PX,
        edges: dict[int, MeshEdges] | None = None,
    ) -> None:
        """Look at bodies; ``edges`` keeps the edges of solids that several scenes share, by the solid's identity."""
        self.view, self.bodies = view, bodies
        self.flat = {name: view.flat(body.points_mm) for name, body in bodies.items()}
        self.grid: Grid = grid_over(np.vstack(list(self.flat.values())), longest_n)
        self._edges: dict[int, MeshEdges] = {} if edges is None else edges
        self._samples: dict[str, EdgeSamples] = {}
        self._depth: dict[str, tuple[slice, slice, Floats]] = {}

    def box_of(self, names: Collection[str]) -> tuple[Floats, Floats]:
        """Return the corners of the rectangle that some bodies fill in the view."""
        every = np.vstack([self.flat[name][:, :2] for name in names])
        return every.min(axis=0), every.max(axis=0)

    def nearest(self, names: Collection[str]) -> Floats:
        """Return the least depth of some bodies at every pixel."""
        found = np.full((self.grid.high_n, self.grid.wide_n), np.inf)
        for name in names:
            rows, columns, depth = self._depth_of(name)
            np.minimum(found[rows, columns], depth, out=found[rows, columns])
        return found

    def share_seen(self, names: Collection[str], nearest_mm: Floats) -> float:
        """Return the share of some bodies' pixels at which nothing stands before them."""
        mine = self.nearest(names)
        there = np.isfinite(mine)
        seen = there & (mine <= nearest_mm + 1e-9)
        return float(seen.sum()) / max(int(there.sum()), 1)

    def lines(self, names: Collection[str], nearest_mm: Floats, frame: Frame2, fine_mm: float) -> Shape | None:
        """Return the edges of some bodies that are seen at a nearest depth, as one shape; None where none is."""
        found = [self.samples(name).seen(nearest_mm) for name in names]
        return self.drawn(np.vstack(found) if found else np.zeros((0, 4)), frame, fine_mm)

    def hidden(self, names: Collection[str], nearest_mm: Floats, frame: Frame2, fine_mm: float) -> Shape | None:
        """Return the edges of some bodies that something else hides, and they themselves do not."""
        alone = self.nearest(names)
        found = [self.samples(name).seen(np.where(nearest_mm < alone - 1e-9, alone, -np.inf)) for name in names]
        return self.drawn(np.vstack(found) if found else np.zeros((0, 4)), frame, fine_mm)

    def split(self, line_mm: Floats, nearest_mm: Floats) -> tuple[Floats, Floats]:
        """Return a line through the device as stretches in pixels: those that are seen, and those that are hidden."""
        px = self.grid.px(self.view.flat(line_mm))
        count = np.maximum(np.ceil(np.hypot(*np.diff(px[:, :2], axis=0).T)), 1).astype(int)
        points = np.vstack(
            [a + (b - a) * (np.arange(n) / n)[:, None] for a, b, n in zip(px[:-1], px[1:], count, strict=True)]
            + [px[-1:]]
        )
        middle = (points[:-1] + points[1:]) / 2
        x = np.clip(np.rint(middle[:, 0]).astype(int), 0, self.grid.wide_n - 1)
        y = np.clip(np.rint(middle[:, 1]).astype(int), 0, self.grid.high_n - 1)
        seen = middle[:, 2] <= nearest_mm[y, x] + CORD_MM
        lines = np.column_stack([points[:-1, :2], points[1:, :2]])
        return lines[seen], lines[~seen]

    def drawn(self, lines: Floats, frame: Frame2, fine_mm: float) -> Shape | None:
        """Return lines in pixels, cut to a frame, as one shape; None where the frame holds none."""
        kept = _clipped(self._in_frame(lines, frame), frame.size_mm)
        rings = tuple(
            tuple((round(float(x), 2), round(float(y), 2)) for x, y in chain) for chain in chained(kept, fine_mm)
        )
        return Shape(rings=rings, closed=False) if rings else None

    def covered(self, names: Collection[str], nearest_mm: Floats, frame: Frame2) -> tuple[tuple[Point, ...], ...]:
        """Return the rings of what is seen of some bodies, cut to a frame."""
        mask = np.isfinite(nearest_mm) & (self.nearest(names) <= nearest_mm + 1e-9)
        low, high = (np.array(corner) for corner in (frame.low_mm, frame.high_mm))
        first = np.maximum(np.ceil((low - self.grid.low_mm) / self.grid.step_mm), 0).astype(int)
        last = np.maximum(np.floor((high - self.grid.low_mm) / self.grid.step_mm), 0).astype(int)
        part = mask[first[1] : last[1] + 1, first[0] : last[0] + 1]
        rings = []
        for ring in mask_rings(part):
            flat = (ring + first) * self.grid.step_mm + self.grid.low_mm
            rings.append(tuple((round(x, 2), round(y, 2)) for x, y in (frame.at(point) for point in flat)))
        return tuple(rings)

    def middle_of(self, name: str, nearest_mm: Floats) -> tuple[int, Floats] | None:
        """Return how many pixels of a body are seen, and the seen place in mm that lies nearest to their middle."""
        rows, columns, depth = self._depth_of(name)
        y, x = np.nonzero(np.isfinite(depth) & (depth <= nearest_mm[rows, columns] + 1e-9))
        if not len(x):
            return None
        best = int(np.argmin((x - x.mean()) ** 2 + (y - y.mean()) ** 2))
        px = np.array([x[best] + columns.start, y[best] + rows.start])
        return len(x), px * self.grid.step_mm + np.array(self.grid.low_mm)

    def samples(self, name: str) -> EdgeSamples:
        """Return the points along a body's edges."""
        if name not in self._samples:
            body = self.bodies[name]
            edges = self._edges.get(id(body.solid)) or mesh_edges(body.solid)
            self._edges[id(body.solid)] = edges
            self._samples[name] = edge_samples(self.grid, self.view, body.points_mm, edges, body.turn)
        return self._samples[name]

    def _depth_of(self, name: str) -> tuple[slice, slice, Floats]:
        """Return the rows and columns that a body fills, and its least depth there."""
        if name not in self._depth:
            px = self.grid.px(self.flat[name])
            low, high = np.floor(px[:, :2].min(axis=0)).astype(int), np.ceil(px[:, :2].max(axis=0)).astype(int)
            low = np.maximum(low, 0)
            own = Grid(
                low_mm=(0.0, 0.0), step_mm=1.0, wide_n=int(high[0] - low[0] + 1), high_n=int(high[1] - low[1] + 1)
            )
            depth = depth_on(own, px - np.array([low[0], low[1], 0.0]), self.bodies[name].solid.faces)
            self._depth[name] = (
                slice(int(low[1]), int(low[1]) + own.high_n),
                slice(int(low[0]), int(low[0]) + own.wide_n),
                depth,
            )
        return self._depth[name]

    def _in_frame(self, lines: Floats, frame: Frame2) -> Floats:
        """Return lines (n, 4) in pixels as they are drawn in a frame."""
        points = lines.reshape(-1, 2) * self.grid.step_mm + np.array(self.grid.low_mm)
        moved: Floats = ((points - np.array(frame.low_mm)) * frame.ratio).reshape(-1, 4)
        return moved


def _clipped(lines: Floats, size_mm: tuple[float, float]) -> Floats:
    """Return the stretches of lines (n, 4) inside a rectangle from (0, 0) (Liang and Barsky 1984)."""
    if not len(lines):
        return lines
    a, way = lines[:, :2], lines[:, 2:] - lines[:, :2]
    enter, leave = np.zeros(len(lines)), np.ones(len(lines))
    for axis, most in enumerate(size_mm):
        for speed, room in ((-way[:, axis], a[:, axis]), (way[:, axis], most - a[:, axis])):
            share = np.divide(room, speed, out=np.zeros(len(lines)), where=speed != 0.0)
            enter = np.where(speed < 0.0, np.maximum(enter, share), enter)
            leave = np.where(speed > 0.0, np.minimum(leave, share), leave)
            leave = np.where((speed == 0.0) & (room < 0.0), -1.0, leave)
    kept = leave > enter
    return np.column_stack([a + enter[:, None] * way, a + leave[:, None] * way])[kept]

"""One bed while it fills: a raster finds where a shape may lie, geometry confirms it and slides it home."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.packing.layout.packed_unit import Spot, at_spot
from planner.packing.search.scan import Cells, Steps, cells_within, first_free, index_columns, runs_of

LEAST_CELL_MM = 0.5
CELLS_MOST = 480
"""Beds of more than this many least cells get larger ones."""
TRIED = 4
"""Places of a turn that geometry is asked about: the raster may see room where a hair is missing."""
LEAST_APART_MM = 0.02
"""Parts of no spacing still do not touch."""

Score = Callable[[NDArray[np.float64], NDArray[np.float64]], NDArray[np.float64]]
"""From the far ends of places, x and y from the bed's front left corner in mm, to what is best when least."""
FRONT: Score = lambda x, y: 1e4 * x + y  # noqa: E731  row after row along y
LEFT: Score = lambda x, y: x + 1e4 * y  # noqa: E731
CORNER: Score = lambda x, y: x + y  # noqa: E731
SCORES = (FRONT, CORNER, LEFT)


class Shapes:
    """The cells of shapes at turns, each worked out once for all beds of a search."""

    def __init__(self, cell_mm: float) -> None:
        self.cell_mm = cell_mm
        self.kept: dict[tuple[str, float], tuple[Steps, tuple[float, float], tuple[int, int], shapely.Polygon]] = {}

    def at(
        self, kind: str, shape: shapely.Polygon, turn_deg: float
    ) -> tuple[Steps, tuple[float, float], tuple[int, int], shapely.Polygon]:
        """Return runs of cells, the corner of the first cell, columns and rows, and the turned shape."""
        key = (kind, round(turn_deg, 6))
        if key not in self.kept:
            turned = at_spot(shape, Spot(turn_deg=turn_deg, shift_mm=(0.0, 0.0)))
            x0, y0, x1, y1 = turned.bounds
            n = _cells_n(x1 - x0, self.cell_mm), _cells_n(y1 - y0, self.cell_mm)
            self.kept[key] = runs_of(touched(turned, (x0, y0), n, self.cell_mm)), (x0, y0), n, turned
        return self.kept[key]


class Floor:
    """One bed. ``ground`` is where shapes may lie, ``apart_mm`` the spacing between them."""

    def __init__(self, ground: shapely.Polygon, apart_mm: float, shapes: Shapes) -> None:
        self.ground, self.apart_mm, self.shapes = ground, max(apart_mm, LEAST_APART_MM), shapes
        shapely.prepare(self.ground)
        x0, y0, x1, y1 = ground.bounds
        self.corner = (x0, y0)
        cell_mm = shapes.cell_mm
        n = int((x1 - x0) / cell_mm + 1e-6), int((y1 - y0) / cell_mm + 1e-6)
        self.taken = ~inside(ground.buffer(1e-6 - 0.5 * cell_mm, join_style="mitre"), self.corner, n, cell_mm)
        self.next_taken = np.zeros(n, dtype=np.int32)
        self.next_free = np.zeros(n, dtype=np.int32)
        index_columns(self.taken, self.next_taken, self.next_free, 0, n[0])
        self.laid: list[shapely.Polygon] = []
        self.free_mm2 = float(ground.area)

    def snapshot(self) -> tuple[Cells, int, float]:
        """Return what :meth:`restore` needs to take back all that is laid after this."""
        return self.taken.copy(), len(self.laid), self.free_mm2

    def restore(self, was: tuple[Cells, int, float]) -> None:
        """Take back what was laid since a snapshot."""
        self.taken, self.free_mm2 = was[0], was[2]
        del self.laid[was[1] :]
        index_columns(self.taken, self.next_taken, self.next_free, 0, len(self.taken))

    def allows(self, shape: shapely.Polygon) -> bool:
        """Return whether a shape lies on the ground and apart from all that is laid; exact."""
        if not self.ground.covers(shape):
            return False
        return not self.laid or not bool(shapely.dwithin(self.laid, shape, self.apart_mm - 1e-7).any())

    def lay(self, shape: shapely.Polygon) -> None:
        """Take a shape's place."""
        self.laid.append(shape)
        self.free_mm2 -= float(shape.area)
        cell_mm = self.shapes.cell_mm
        x0, y0, x1, y1 = shape.bounds
        by = self.apart_mm + cell_mm
        i0, j0 = (max(0, int((low - by - c) / cell_mm)) for low, c in zip((x0, y0), self.corner, strict=True))
        i1, j1 = (
            min(n, int((high + by - c) / cell_mm) + 1)
            for high, c, n in zip((x1, y1), self.corner, self.taken.shape, strict=True)
        )
        corner = self.corner[0] + i0 * cell_mm, self.corner[1] + j0 * cell_mm
        self.taken[i0:i1, j0:j1] |= touched(shape.buffer(self.apart_mm), corner, (i1 - i0, j1 - j0), cell_mm)
        index_columns(self.taken, self.next_taken, self.next_free, i0, i1)

    def place(self, kind: str, shape: shapely.Polygon, turns_deg: Sequence[float], score: Score) -> Spot | None:
        """Lay a shape at its best free place over some turns and return the spot; None where there is none."""
        if shape.area > self.free_mm2:
            return None
        for turn, found in self._asked(kind, shape, turns_deg, score):
            _, low, _, turned = self.shapes.at(kind, shape, turn)
            shift = found[0] - low[0], found[1] - low[1]
            if self.allows(at_spot(turned, Spot(turn_deg=0.0, shift_mm=shift))):
                spot = Spot(turn_deg=turn, shift_mm=self._slid(turned, shift))
                self.lay(at_spot(shape, spot))
                return spot
        return None

    def _asked(
        self, kind: str, shape: shapely.Polygon, turns_deg: Sequence[float], score: Score
    ) -> list[tuple[float, tuple[float, float]]]:
        """Return turns with the places where the raster sees room, best first."""
        cell_mm, rows = self.shapes.cell_mm, []
        for turn in turns_deg:
            runs, _, (wide, deep), _ = self.shapes.at(kind, shape, turn)
            columns, lines = self.taken.shape[0] - wide + 1, self.taken.shape[1] - deep + 1
            if columns <= 0 or lines <= 0:
                continue
            found = first_free(self.next_taken, self.next_free, runs, columns, lines)
            at = np.flatnonzero(found >= 0)
            worth = score(cell_mm * (at + wide).astype(np.float64), cell_mm * (found[at] + deep).astype(np.float64))
            for k in np.argsort(worth, kind="stable")[:TRIED]:
                corner = self.corner[0] + at[k] * cell_mm, self.corner[1] + found[at[k]] * cell_mm
                rows.append((float(worth[k]), turn, (float(corner[0]), float(corner[1]))))
        return [(turn, corner) for _, turn, corner in sorted(rows)[: 3 * TRIED]]

    def _slid(self, turned: shapely.Polygon, shift: tuple[float, float]) -> tuple[float, float]:
        """Slide a shape to the left and the front, as far as possible within two cells."""
        for axis in (0, 1):
            free, far = 0.0, 2.0 * self.shapes.cell_mm
            for _ in range(8):
                middle = (free + far) / 2
                tried = (shift[0] - middle, shift[1]) if axis == 0 else (shift[0], shift[1] - middle)
                if self.allows(at_spot(turned, Spot(turn_deg=0.0, shift_mm=tried))):
                    free = middle
                else:
                    far = middle
            shift = (shift[0] - free, shift[1]) if axis == 0 else (shift[0], shift[1] - free)
        return shift


def cell_mm(ground: shapely.Polygon) -> float:
    """Return the size of a raster's cells on a bed."""
    x0, y0, x1, y1 = ground.bounds
    return float(max(LEAST_CELL_MM, max(x1 - x0, y1 - y0) / CELLS_MOST))


def _cells_n(length_mm: float, cell_mm: float) -> int:
    """Return the number of cells that a length takes."""
    return max(1, int(np.ceil(length_mm / cell_mm - 1e-6)))


def inside(
    shape: shapely.Polygon | shapely.MultiPolygon, corner: tuple[float, float], n: tuple[int, int], cell_mm: float
) -> Cells:
    """Return the cells whose middles lie in a shape."""
    points, ring = shapely.get_coordinates(shapely.get_rings(shape), return_index=True)
    edges = np.hstack([points[:-1], points[1:]])[ring[:-1] == ring[1:]] if len(points) else np.zeros((0, 4))
    found: Cells = cells_within(np.ascontiguousarray(edges), *corner, *n, cell_mm)
    return found


def touched(shape: shapely.Polygon, corner: tuple[float, float], n: tuple[int, int], cell_mm: float) -> Cells:
    """Return the cells whose middles lie within half a cell of a shape, and a few next to its corners."""
    return inside(shape.buffer(0.5 * cell_mm, join_style="mitre", mitre_limit=1.5), corner, n, cell_mm)

"""Match islands with the parts that the plan means, by shape, wherever and however turned they lie."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
import shapely.affinity
from numpy.typing import NDArray
from scipy.optimize import linear_sum_assignment

from planner.gcode.islands import Island, closed, closing_mm
from planner.gcode.laid import CELL_MM, Laid
from planner.layers import Section, shape_of
from planner.mesh import Solid

Floats = NDArray[np.float64]

SHARES = (0.12, 0.3, 0.5, 0.7, 0.88)
"""Shares of the height at which sections are compared."""
COARSE_DEG, FINE_DEG = 6.0, 1.0
ALIKE_LEAST = 0.80
"""Least common area over joint area, over all sections, for a match."""
FACTORS = (0.03, 30.0)
"""Sizes that are tried: a unit mistake is 25.4 or 10."""
GAP_LEAST_MM, GOOD_ENOUGH = 1.5, 0.95
"""Gaps up to this are closed at least; a match this good is not looked at again."""
POINTS_MOST = 400
BETTER = 0.03
"""A mirrored part must fit this much better than the plan's own to be called so."""
LONG_SLACK = 0.15
"""Shadows whose lengths over breadths differ by more are of different parts: not compared any further."""
SUPPORT_MM = 1.0
"""Support may stand this far outside the shadow of what it carries."""
TOUCHED_MM = 0.3
"""A raster cell is set when a line touches it: regions look larger by about this (half a cell's breadth)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeantPart:
    """A part as the plan prints it: at size in its pose on z = 0, how many copies, and whether on support."""

    name: str
    solid: Solid
    count: int
    support: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Match:
    """An island and the part it is: its size over the planned one across and in height, and how alike they are."""

    island: Island
    part: str
    across: float
    upward: float
    mirrored: bool
    alike: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Matching:
    """All matches, the parts that no island is, with their number, and the islands that are no part."""

    matches: tuple[Match, ...]
    missing: tuple[tuple[str, int], ...]
    extra: tuple[Island, ...]

    @property
    def alike(self) -> float:
        """How well all islands fit all copies meant, from 0 to 1."""
        wanted, there = sum(n for _, n in self.missing), len(self.extra)
        return sum(match.alike for match in self.matches) / max(len(self.matches) + max(wanted, there), 1)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Shape:
    """Sections of a part, as printed, about the middle of its shadow, with the height of the part.

    ``allowed`` are the regions where lines may lie at each section: the section itself, and where the part stands on
    support all that its shadow covers.
    """

    sections: tuple[shapely.Geometry, ...]
    allowed: tuple[shapely.Geometry, ...]
    shadow: shapely.Geometry
    height_mm: float
    long: float
    """How much longer than broad the shadow is."""


def matching(
    islands: Sequence[Island], parts: Sequence[MeantPart], laid: Laid, *, line_width_mm: float, gap_mm: float
) -> Matching:
    """Return the best assignment of islands to the copies meant (Hungarian method, scipy)."""
    copies = [part for part in parts for _ in range(part.count)]
    table: dict[tuple[int, str], Match] = {}
    for gap in sorted({gap_mm, GAP_LEAST_MM}, reverse=True):  # a slot as wide as the infill's gaps shows only unclosed
        for part in parts:
            plain, mirror = (
                _shape(solid, part.support, line_width_mm, gap) for solid in (part.solid, part.solid.mirrored())
            )
            for index, island in enumerate(islands):
                before = table.get((index, part.name))
                if before is None or 0.0 < before.alike < GOOD_ENOUGH:
                    now = _compared(island, part.name, plain, mirror, laid, gap)
                    table[index, part.name] = now if before is None or now.alike > before.alike else before
    score = np.array([[_score(table[index, part.name]) for part in copies] for index in range(len(islands))])
    rows, columns = linear_sum_assignment(-score) if score.size else (np.empty(0, int), np.empty(0, int))
    good = [
        (int(r), int(c))
        for r, c in zip(rows, columns, strict=True)
        if table[int(r), copies[int(c)].name].alike >= ALIKE_LEAST
    ]
    taken = {r for r, _ in good}
    left = [part.name for index, part in enumerate(copies) if index not in {c for _, c in good}]
    return Matching(
        matches=tuple(table[r, copies[c].name] for r, c in good),
        missing=tuple((name, left.count(name)) for name in dict.fromkeys(left)),
        extra=tuple(island for index, island in enumerate(islands) if index not in taken),
    )


def _score(match: Match) -> float:
    """Return how good a match is for the assignment: of mirrored twins each is taken for itself."""
    return match.alike - (2 * BETTER if match.mirrored else 0.0)


def _long(points: Floats) -> float:
    """Return how much longer than broad a cloud of points is: the root of the ratio of its second moments."""
    least, most = np.linalg.eigvalsh(np.cov(points.T))
    return float(np.sqrt(most / max(least, 1e-9)))


def _grid(section: shapely.Geometry) -> Floats:
    """Return points on a grid within a region."""
    x0, y0, x1, y1 = section.bounds
    x, y = np.meshgrid(np.linspace(x0, x1, 60), np.linspace(y0, y1, 60))
    inside = shapely.contains_xy(section, x.ravel(), y.ravel())
    return np.column_stack([x.ravel()[inside], y.ravel()[inside]])


def _shape(solid: Solid, support: bool, line_width_mm: float, gap_mm: float) -> _Shape:
    """Return a part's sections as a raster of its lines would show them."""
    body = solid.manifold
    assert body is not None
    height = solid.size_mm[2]
    closing = closing_mm(gap_mm)
    grow = TOUCHED_MM - line_width_mm / 2

    def seen(section: Section) -> shapely.Geometry:
        """Return a section as seen on the raster: by centre lines, gaps closed."""
        return shape_of(section).buffer(grow).buffer(closing).buffer(-closing)

    shadow = seen(body.project())
    centre = shadow.centroid
    sections = [seen(body.slice(height * share)) for share in SHARES]
    moved = [shapely.affinity.translate(one, -centre.x, -centre.y) for one in (*sections, shadow)]
    allowed = (moved[-1].buffer(SUPPORT_MM),) * len(SHARES) if support else tuple(moved[:-1])
    return _Shape(
        sections=tuple(moved[:-1]), allowed=allowed, shadow=moved[-1], height_mm=height, long=_long(_grid(moved[-1]))
    )


def _compared(island: Island, name: str, plain: _Shape, mirror: _Shape, laid: Laid, gap_mm: float) -> Match:
    """Compare an island with a part, at the island's own size, both ways round."""
    shadow = laid.centres_mm(closed(island.cells, gap_mm))
    across = float(np.sqrt(len(shadow) * CELL_MM**2 / max(plain.shadow.area, 1e-9)))
    upward = island.top_mm / plain.height_mm
    nothing = Match(island=island, part=name, across=across, upward=upward, mirrored=False, alike=0.0)
    if not FACTORS[0] < across < FACTORS[1] or not 0.5 < across / upward < 2.0 or len(shadow) < 3:
        return nothing
    if abs(_long(shadow) / plain.long - 1.0) > LONG_SLACK:
        return nothing
    middle = shadow.mean(axis=0)
    points = [(island.at(laid, share, gap_mm) - middle) / across for share in SHARES]
    cell = (CELL_MM / across) ** 2
    own = _best(points, plain, cell)
    other = _best(points, mirror, cell) if own < 1.0 - BETTER else 0.0
    return Match(
        island=island,
        part=name,
        across=across,
        upward=upward,
        mirrored=other > own + BETTER,
        alike=max(own, other),
    )


def _best(points: Sequence[Floats], shape: _Shape, cell_mm2: float) -> float:
    """Return the best common share over all turns: a coarse look at one section, a fine one at all."""
    largest = int(np.argmax([section.area for section in shape.sections]))
    turns = np.arange(0.0, 360.0, COARSE_DEG)
    rough = [_common(points, shape, largest, float(turn), cell_mm2, POINTS_MOST) for turn in turns]
    best = 0.0
    for turn in turns[np.argsort(rough)[-3:]]:
        for fine in np.arange(turn - COARSE_DEG / 2, turn + COARSE_DEG / 2 + 0.1, FINE_DEG):
            shares = [_common(points, shape, k, float(fine), cell_mm2, POINTS_MOST * 3) for k in range(len(points))]
            best = max(best, float(np.mean(shares)))
    return best


def _common(sections: Sequence[Floats], shape: _Shape, k: int, turn_deg: float, cell_mm2: float, most: int) -> float:
    """Return common area over joint area of the cells and the part at one section, the cells turned.

    Cells where only support may stand count on neither side.
    """
    points, section, allowed = sections[k], shape.sections[k], shape.allowed[k]
    if not len(points) or section.is_empty:
        return 1.0 if not len(points) and section.is_empty else 0.0
    few = points[:: max(1, len(points) // most)]
    cos, sin = np.cos(np.radians(turn_deg)), np.sin(np.radians(turn_deg))
    x, y = few[:, 0] * cos - few[:, 1] * sin, few[:, 0] * sin + few[:, 1] * cos
    shapely.prepare(section)
    inside = shapely.contains_xy(section, x, y)
    outside = ~inside
    if allowed is not section:
        shapely.prepare(allowed)
        outside &= ~shapely.contains_xy(allowed, x, y)
    each = len(points) * cell_mm2 / len(few)
    common = float(inside.sum()) * each
    return common / max(float(section.area) + float(outside.sum()) * each, 1e-9)

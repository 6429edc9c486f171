"""Match islands with the parts that the plan means, by shape, wherever and however turned they lie."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import linear_sum_assignment

from planner.gcode.expected import ExpectedPart
from planner.gcode.matching.islands import Island, closed
from planner.gcode.matching.likeness import turns_of
from planner.gcode.matching.line_raster import CELL_MM, Laid
from planner.gcode.matching.part_shape import PartShape, long_of, part_shape, shadow_long, shadow_of
from planner.mesh import Solid

Floats = NDArray[np.float64]

SHARES = (0.12, 0.3, 0.5, 0.7, 0.88)
"""Shares of the height at which sections are compared."""
ALIKE_LEAST = 0.65
"""Least common area over joint area, over all sections, for a match; what differs then is told exactly."""
FACTORS, SAME_FACTORS = (0.03, 30.0), (0.7, 1.4)
"""Sizes that are tried, a unit mistake is 25.4 or 10; and the sizes of a piece whose height need not follow them."""
GAP_LEAST_MM, GOOD_ENOUGH = 1.5, 0.95
"""Gaps up to this are closed at least; a match this good is not looked at again."""
RIVAL = 0.08
"""Turns, mirrored twins and parts that are worse by no more than this need an exact look."""
LONG_SLACK = 0.3
"""Shadows whose lengths over breadths differ by more are of different parts: not compared any further."""
HEIGHT_SLACK_MM = 0.45


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pose:
    """How a piece lies: ``matrix @ bed + offset`` is its place in the part's frame, from above.

    A height z on the bed is ``(z - z_offset_mm) / z_scale`` in the part's.
    """

    matrix: Floats
    offset_mm: Floats
    mirrored: bool
    z_share: float
    z_offset_mm: float
    alike_share: float

    def part_z_mm(self, z_mm: Floats) -> Floats:
        """Return heights in the part's frame."""
        return (z_mm - self.z_offset_mm) / self.z_share


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Match:
    """An island and the part it is: its size over the planned one across and in height, and how alike they are.

    ``poses`` are those that the raster cannot tell apart, the best first.
    """

    island: Island
    part: str
    across_share: float
    upward_share: float
    mirrored: bool
    alike_share: float
    poses: tuple[Pose, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Matching:
    """All matches, the parts that no island is, with their number, and the islands that are no part."""

    matches: tuple[Match, ...]
    missing: tuple[tuple[str, int], ...]
    extra: tuple[Island, ...]

    @property
    def alike_share(self) -> float:
        """How well all islands fit all copies expected, from 0 to 1."""
        wanted, there = sum(n for _, n in self.missing), len(self.extra)
        return sum(match.alike_share for match in self.matches) / max(len(self.matches) + max(wanted, there), 1)


@dataclass(frozen=True, kw_only=True)
class Matcher:
    """Compares islands with parts; shapes are made once for all islands of one height."""

    laid: Laid
    width_mm: float
    first_mm: float
    gaps_mm: tuple[float, ...]
    shapes: dict[tuple[object, ...], PartShape | None] = field(default_factory=dict)
    longs: dict[tuple[object, ...], float | None] = field(default_factory=dict)
    mirrors: dict[str, Solid] = field(default_factory=dict)

    def shape(self, part: ExpectedPart, mirrored: bool, way: Way, gap_mm: float) -> PartShape | None:
        """Return a part's shape over a span of heights."""
        key = part.name, mirrored, way.key, gap_mm
        if key not in self.shapes:
            solid = self.solid(part, mirrored=mirrored)
            heights = [way.low_mm + share * (way.high_mm - way.low_mm) for share in SHARES]
            self.shapes[key] = part_shape(
                solid, heights, self._span(way), support=part.support, gap_mm=gap_mm, width_mm=self.width_mm
            )
        return self.shapes[key]

    def long(self, part: ExpectedPart, way: Way, gap_mm: float) -> float | None:
        """Return how much longer than broad a part's shadow is over a span of heights; None for no shadow."""
        key = part.name, way.key, gap_mm
        if key not in self.longs:
            shadow = shadow_of(part.solid, self._span(way), gap_mm=gap_mm, width_mm=self.width_mm)
            self.longs[key] = None if shadow is None else shadow_long(shadow)
        return self.longs[key]

    def _span(self, way: Way) -> tuple[float, float]:
        """Return between which heights a part's shadow is taken."""
        return way.low_mm if way.low_mm > self.first_mm else 0.0, way.high_mm

    def solid(self, part: ExpectedPart, *, mirrored: bool) -> Solid:
        """Return a part, or its mirror image."""
        if not mirrored:
            return part.solid
        return self.mirrors.setdefault(part.name, part.solid.mirrored())

    def compared_with_all(self, island: Island, parts: Sequence[ExpectedPart]) -> list[Match]:
        """Compare an island with all parts; what is like none, as without any infill, with all holes filled."""
        row = [self.compared(island, part, self.gaps_mm) for part in parts]
        if max((match.alike_share for match in row), default=1.0) < ALIKE_LEAST:
            row = [self.compared(island, part, (np.inf,)) for part in parts]
        return row

    def compared(self, island: Island, part: ExpectedPart, gaps_mm: Sequence[float]) -> Match:
        """Compare an island with a part in every way that their heights allow, both ways round."""
        match = self._match(island, part, [])
        for gap in gaps_mm:  # a slot as wide as the infill's gaps shows only unclosed
            shadow = self.laid.centres_mm(closed(island.cells, gap))
            if len(shadow) < 3:
                continue
            for way in ways_of(island, part.solid.size_mm[2], self.first_mm):
                match = self._better(match, [*match.poses, *self._poses(island, part, way, gap, shadow)])
                if match.alike_share >= GOOD_ENOUGH:
                    return match
        return match

    def _better(self, match: Match, poses: list[Pose]) -> Match:
        """Return a match with the best of some poses."""
        return self._match(match.island, match.part, poses, match.upward_share)

    def _match(self, island: Island, part: ExpectedPart | str, poses: list[Pose], upward: float = 0.0) -> Match:
        """Return a match by its poses; the plan's own way round comes first where the raster cannot tell."""
        best = max((pose.alike_share for pose in poses), default=0.0)
        rivals = sorted(
            (p for p in poses if p.alike_share >= best - RIVAL), key=lambda p: -p.alike_share + RIVAL * p.mirrored / 2
        )
        across = 1.0 / float(np.sqrt(abs(np.linalg.det(rivals[0].matrix)))) if rivals else 0.0
        return Match(
            island=island,
            part=part if isinstance(part, str) else part.name,
            across_share=across,
            upward_share=upward if isinstance(part, str) else island.top_mm / part.solid.size_mm[2],
            mirrored=bool(rivals and rivals[0].mirrored),
            alike_share=best,
            poses=tuple(rivals),
        )

    def _poses(self, island: Island, part: ExpectedPart, way: Way, gap_mm: float, shadow: Floats) -> list[Pose]:
        """Return the poses in which an island is alike a part, heights taken in one way."""
        found: list[Pose] = []
        middle, long = shadow.mean(axis=0), long_of(shadow)
        points: list[Floats] = []
        planned = self.long(part, way, gap_mm)
        if planned is None or abs(long / planned - 1.0) > LONG_SLACK:
            return []
        for mirrored in (False, True):
            if mirrored and found and found[0].alike_share >= 1.0 - RIVAL / 2:
                break
            shape = self.shape(part, mirrored, way, gap_mm)
            if shape is None:
                continue
            across = float(np.sqrt(len(shadow) * CELL_MM**2 / shape.shadow.area))
            low, high = FACTORS if way.scale != 1.0 else SAME_FACTORS
            if not low < across < high or (way.scale != 1.0 and not 0.5 < across / way.scale < 2.0):
                continue
            points = points or [
                island.at(self.laid, way.bed_z_mm(way.low_mm + share * (way.high_mm - way.low_mm)), gap_mm) - middle
                for share in SHARES
            ]
            at_size = [section / across for section in points]
            for turn, alike in turns_of(at_size, shape, (CELL_MM / across) ** 2, RIVAL):
                cos, sin = np.cos(np.radians(turn)), np.sin(np.radians(turn))
                matrix = np.array([[cos, -sin], [sin, cos]]) / across
                found.append(
                    Pose(
                        matrix=matrix,
                        offset_mm=shape.middle_mm - matrix @ middle,
                        mirrored=mirrored,
                        z_share=way.scale,
                        z_offset_mm=way.offset_mm,
                        alike_share=alike,
                    )
                )
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A way to take an island's heights: bed z = part z x scale + offset, compared between two heights of the part."""

    scale: float
    offset_mm: float
    low_mm: float
    high_mm: float

    @property
    def key(self) -> tuple[float, float]:
        """Return what tells shapes apart."""
        return round(self.low_mm, 1), round(self.high_mm, 1)

    def bed_z_mm(self, part_z_mm: float) -> float:
        """Return a height on the bed."""
        return part_z_mm * self.scale + self.offset_mm


def ways_of(island: Island, height_mm: float, first_mm: float) -> list[Way]:
    """Return the ways to take an island's heights: as they are, lifted whole, at another scale."""
    bottom = island.bottom_mm if island.bottom_mm > first_mm + HEIGHT_SLACK_MM else 0.0
    top = min(island.top_mm, height_mm)
    ways = []
    if top > bottom:
        ways.append(Way(scale=1.0, offset_mm=0.0, low_mm=bottom, high_mm=top))
    if bottom:
        lift = bottom - first_mm
        ways.append(Way(scale=1.0, offset_mm=lift, low_mm=0.0, high_mm=min(island.top_mm - lift, height_mm)))
    if abs(island.top_mm - height_mm) > HEIGHT_SLACK_MM:
        ways.append(Way(scale=island.top_mm / height_mm, offset_mm=0.0, low_mm=0.0, high_mm=height_mm))
    return ways


def matching(
    islands: Sequence[Island],
    parts: Sequence[ExpectedPart],
    matcher: Matcher,
    exact: Callable[[Match], float],
) -> Matching:
    """Return the best assignment of islands to the copies expected (Hungarian method, scipy).

    ``exact`` says how alike a match is by its exact sections; it is asked where the raster leaves two parts open.
    """
    table = [matcher.compared_with_all(island, parts) for island in islands]
    copies = [index for index, part in enumerate(parts) for _ in range(part.count)]
    score = np.array([_scores(row, exact) for row in table]).reshape(len(islands), len(parts))[:, copies]
    rows, columns = linear_sum_assignment(-score) if score.size else (np.empty(0, int), np.empty(0, int))
    pairs = [(int(r), int(c)) for r, c in zip(rows, columns, strict=True)]
    good = {r: table[r][copies[c]] for r, c in pairs if table[r][copies[c]].alike_share >= ALIKE_LEAST}
    taken = {c for r, c in pairs if r in good}
    left = [parts[copies[c]].name for c in range(len(copies)) if c not in taken]
    return Matching(
        matches=tuple(good.values()),
        missing=tuple((name, left.count(name)) for name in dict.fromkeys(left)),
        extra=tuple(island for index, island in enumerate(islands) if index not in good),
    )


def _scores(row: Sequence[Match], exact: Callable[[Match], float]) -> list[float]:
    """Return how good an island's matches are, exactly where more than one part may be it."""
    best = max((match.alike_share for match in row), default=0.0)
    open_ones = [match for match in row if match.alike_share >= max(best - 2 * RIVAL, ALIKE_LEAST)]
    if len(open_ones) < 2:
        return [match.alike_share for match in row]
    return [exact(match) if match in open_ones else match.alike_share - 1.0 for match in row]

"""Paths: every line of a layer in the order in which it is laid, with the travel between."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from planner.layers.layer_records import LINE_KINDS
from planner.layers.lines.fill import fill_lines
from planner.layers.lines.regions import Regions
from planner.layers.lines.section import Section, rings_of

Floats = NDArray[np.float64]
KIND_NAMES = LINE_KINDS
OUTER, INNER, SOLID, INFILL, NARROW, BRIDGE, SUPPORT, BRIM, TRAVEL = range(len(KIND_NAMES))


@dataclass(slots=True)
class Path:
    """A path that grows: points, and for every move its kind; only this file and its caller extend it."""

    points: list[Floats] = field(default_factory=list)
    kinds: list[NDArray[np.int64]] = field(default_factory=list)
    at: Floats | None = None

    def run(self, points: Floats, kind: int) -> None:
        """Travel to the first point, then lay a line through all of them."""
        steps = len(points) - 1
        travel = [] if self.at is None else [np.full(1, TRAVEL)]
        self.points.append(points)
        self.kinds += [*travel, np.full(steps, kind)]
        self.at = points[-1]

    def lay(self, segments: Floats, kind: int) -> None:
        """Lay separate segments (n, 2, 2) with travel between them."""
        if not len(segments):
            return
        moves = np.full(2 * len(segments) - 1, TRAVEL)
        moves[0::2] = kind
        travel = [] if self.at is None else [np.full(1, TRAVEL)]
        self.points.append(segments.reshape(-1, 2))
        self.kinds += [*travel, moves]
        self.at = segments[-1, 1]


def begin_layer(path: Path, *, brim: list[Section], support: tuple[Section, float]) -> None:
    """Lay brim and support; ``support`` is its region and pitch."""
    for loop in brim:
        _loops(path, loop, BRIM)
    if not support[0].is_empty():
        path.lay(fill_lines(rings_of(support[0]), support[1], 0.0), SUPPORT)


def lay_island(path: Path, regions: Regions, *, pitches_mm: tuple[float, float], angle_deg: float) -> None:
    """Lay one island of a layer: inner contours, outer ones, bridges, solid fill, infill.

    ``pitches_mm`` are those of solid fill and infill; 0 for none.
    """
    for index in range(len(regions.contours) - 1, -1, -1):
        _loops(path, regions.contours[index], INNER if index else OUTER)
    for bridge in regions.bridges:
        path.lay(fill_lines(rings_of(bridge.region), pitches_mm[0], bridge.angle_deg), BRIDGE)
    if not regions.solid.is_empty():
        path.lay(fill_lines(rings_of(regions.solid), pitches_mm[0], angle_deg), SOLID)
    if not regions.infill.is_empty() and pitches_mm[1] > 0.0:
        path.lay(fill_lines(rings_of(regions.infill), pitches_mm[1], angle_deg), INFILL)


def _loops(path: Path, section: Section, kind: int) -> None:
    """Lay the rings of a section, each closed, the nearest start of each next."""
    for ring in rings_of(section):
        start = 0 if path.at is None else int(np.argmin(((ring - path.at) ** 2).sum(axis=1)))
        turned = np.roll(ring, -start, axis=0)
        path.run(np.vstack([turned, turned[:1]]), kind)

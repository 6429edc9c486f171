"""Lines of support: every island of it is one long zigzag, there and back, with hardly a move between."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.layers.lines.fill import fill_lines
from planner.layers.lines.section import Section, rings_of, shape_of

Floats = NDArray[np.float64]

LEAST_MM2 = 0.2
"""An island smaller than a dot of the nozzle is not laid."""
LONG_SHARE = 1.5
"""An island that is longer than wide by this factor is laid along its length; any other along x."""
TURN_DEG = 45.0
"""Directions are multiples of this, so that the lines of one layer lie on those below."""
NARROW_PITCHES = 2.0
"""An island narrower than this many pitches gets its lines evenly spaced, at least one: a grid might miss it."""
TURN_PITCHES = 4.0
"""Lines whose ends are farther apart than this many pitches are not joined."""
OUT_MM = 0.005
"""A turn may leave the island by rounding: the island ends where the bead's edge meets the part's shadow."""


def zigzag_runs(region: Section, pitch_mm: float) -> list[Floats]:
    """Return connected lines (k, 2) that cover a region at a pitch, those of one island after the other.

    Notes
    -----
    An island of area A takes a length of about A / pitch; the turns add a pitch to every line. Where lines are
    shorter than the pitch, the turn replaces the line: the way runs slantwise from side to side.
    """
    runs: list[Floats] = []
    for island in region.decompose():
        if float(island.area()) < LEAST_MM2:
            continue
        shape = shape_of(island)
        lines = _lines(island, shape, pitch_mm)
        if len(lines):
            runs += _joined(lines, shape, pitch_mm)
    return runs


def nearest_first(runs: list[Floats], at: Floats | None) -> list[Floats]:
    """Return runs so that each begins near the end of the last, turned round where its end is nearer."""
    left, ordered = list(runs), []
    while left:
        if at is None:
            run = left.pop(0)
        else:
            ends = np.array([(run[0], run[-1]) for run in left])
            away = ((ends - at) ** 2).sum(axis=2)
            which, turned = divmod(int(away.argmin()), 2)
            run = left.pop(which)
            run = run[::-1] if turned else run
        ordered.append(run)
        at = run[-1]
    return ordered


def _lines(island: Section, shape: shapely.Geometry, pitch_mm: float) -> Floats:
    """Return the lines (n, 2, 2) across an island, in the order in which they are laid."""
    rings = rings_of(island)
    box = shapely.minimum_rotated_rectangle(shape)
    if not isinstance(box, shapely.Polygon):
        return np.empty((0, 2, 2))
    corners = np.asarray(box.exterior.coords)
    sides = np.diff(corners[:3], axis=0)
    lengths = np.linalg.norm(sides, axis=1)
    along, wide, length = sides[lengths.argmax()], float(lengths.min()), float(lengths.max())
    exact = float(np.degrees(np.arctan2(along[1], along[0])))
    if wide >= NARROW_PITCHES * pitch_mm:
        angle = round(exact / TURN_DEG) * TURN_DEG if length > LONG_SHARE * wide else 0.0
        return fill_lines(rings, pitch_mm, angle)
    corner = corners[0]  # the grid of lines begins at the island's own side
    spacing = wide / max(1, round(wide / pitch_mm))
    lines: Floats = fill_lines([ring - corner for ring in rings], spacing, exact) + corner
    return lines


def _joined(lines: Floats, shape: shapely.Geometry, pitch_mm: float) -> list[Floats]:
    """Join the end of each line with the start of the next, where the turn stays inside the island."""
    grown = shape.buffer(OUT_MM)
    shapely.prepare(grown)
    short = np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1) < pitch_mm
    turns = np.stack([lines[:-1, 1], lines[1:, 0]], axis=1)
    slants = np.stack([lines[:-1, 1], lines[1:, 1]], axis=1)
    near = np.linalg.norm(turns[:, 1] - turns[:, 0], axis=1) <= TURN_PITCHES * pitch_mm
    turned = near & shapely.covers(grown, shapely.linestrings(turns))
    slanted = near & short[1:] & short[:-1] & shapely.covers(grown, shapely.linestrings(slants))
    joins = turned | slanted
    use = np.ones((len(lines), 2), dtype=bool)
    use[1:, 0] = ~slanted
    run_of = np.concatenate([[0], np.cumsum(~joins)])
    points, of = lines[use], np.repeat(run_of, 2)[use.ravel()]
    return np.split(points, np.flatnonzero(np.diff(of)) + 1)

"""Pieces of prisms, printed in rings: every layer is filled by its outline, moved inward line by line."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import numpy as np
import shapely

from planner.gcode.copies.piece import Piece, piece_of
from planner.gcode.matching.match import Pose
from planner.gcode.strokes import Strokes
from planner.layers import Section, bead_area_mm2
from planner.mesh import Solid
from tests.gcode.plate import SETTINGS
from tests.shapes import Manifold, solid_of

FIRST_MM, LAYER_MM = SETTINGS.first_layer_height_mm.value, SETTINGS.layer_height_mm.value
WIDTH_MM = SETTINGS.line_width_mm.value
Lines = list[tuple[tuple[float, float], tuple[float, float]]]

ELBOW = shapely.Polygon([(0, 0), (18, 0), (18, 6), (6, 6), (6, 12), (0, 12)])
"""An L that has a left and a right."""


def prism(outline: shapely.Polygon, layers_n: int) -> Solid:
    """Return a prism so many layers high."""
    ring = np.asarray(outline.exterior.coords)[:-1]
    high = FIRST_MM + (layers_n - 1) * LAYER_MM
    return solid_of(Manifold.extrude(Section([ring if outline.exterior.is_ccw else ring[::-1]]), high))


def rings(outline: shapely.Polygon) -> Lines:
    """Return the lines that fill an outline, from its middle outward."""
    found: Lines = []
    inset = WIDTH_MM / 2
    while not (ring := outline.buffer(-inset, join_style="mitre")).is_empty:
        for one in shapely.get_parts(ring):
            corners = [(float(x), float(y)) for x, y in one.exterior.coords]
            found = [*pairwise(corners), *found]
        inset += WIDTH_MM
    return found


def turned(lines: Lines, deg: float, at_mm: tuple[float, float] = (0.0, 0.0)) -> Lines:
    """Return lines turned about the origin, then moved."""
    cos, sin = np.cos(np.radians(deg)), np.sin(np.radians(deg))

    def put(p: tuple[float, float]) -> tuple[float, float]:
        return float(cos * p[0] - sin * p[1] + at_mm[0]), float(sin * p[0] + cos * p[1] + at_mm[1])

    return [(put(one), put(other)) for one, other in lines]


def printed(
    layers_n: int,
    lines_of: Callable[[int], Lines],
    *,
    fed: float = 1.0,
    skipped: tuple[int, ...] = (),
) -> Piece:
    """Return a piece of some lines on every layer, each a bead of the planned width by its filament times ``fed``."""
    start, end, level, volume = [], [], [], []
    for k in (k for k in range(layers_n) if k not in skipped):
        area = bead_area_mm2(WIDTH_MM, LAYER_MM if k else FIRST_MM)
        for one, other in lines_of(k):
            start.append(one)
            end.append(other)
            level.append(FIRST_MM + k * LAYER_MM)
            volume.append(fed * area * float(np.hypot(other[0] - one[0], other[1] - one[1])))
    strokes = Strokes(
        start_mm=np.array(start), end_mm=np.array(end), level_mm=np.array(level), volume_mm3=np.array(volume)
    )
    return piece_of(strokes, SETTINGS)


def pose(*, mirrored: bool = False, deg: float = 0.0, at_mm: tuple[float, float] = (0.0, 0.0)) -> Pose:
    """Return a pose that turns the bed's places into the part's, then moves them."""
    cos, sin = np.cos(np.radians(deg)), np.sin(np.radians(deg))
    return Pose(
        matrix=np.array([[cos, -sin], [sin, cos]]),
        offset_mm=np.array(at_mm),
        mirrored=mirrored,
        z_share=1.0,
        z_offset_mm=0.0,
        alike_share=1.0,
    )

"""How alike an island and a part are, at every turn about the vertical."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.gcode.matching.part_shape import PartShape

Floats = NDArray[np.float64]

COARSE_DEG, FINE_DEG = 6.0, 1.0
POINTS_MOST = 400
POOR = 0.4
"""Where the coarse look finds no more than this in common, nothing finer is worth while."""
APART_DEG = 24.0
"""Turns nearer to each other than this are one."""
RIVALS_MOST = 4


def turns_of(
    points: Sequence[Floats], shape: PartShape, cell_mm2: float, slack_share: float
) -> list[tuple[float, float]]:
    """Return the best turns in degrees with their common share, the best first.

    A coarse look at one section, a fine one at all; turns far apart that are worse by no more than ``slack_share``
    stay, as a part that nearly equals itself turned round needs an exact look.
    """
    largest = int(np.argmax([section.area for section in shape.sections]))
    turns = np.arange(0.0, 360.0, COARSE_DEG)
    rough = np.array([_common(points, shape, largest, float(turn), cell_mm2, POINTS_MOST) for turn in turns])
    if rough.max() < POOR:
        return [(float(turns[np.argmax(rough)]), float(rough.max()))]
    found: list[tuple[float, float]] = []
    for turn in _peaks(turns, rough, 2.0 * slack_share):
        fine = np.arange(turn - COARSE_DEG / 2, turn + COARSE_DEG / 2 + 0.1, FINE_DEG)
        shares = [
            float(
                np.mean([_common(points, shape, k, float(deg), cell_mm2, POINTS_MOST * 3) for k in range(len(points))])
            )
            for deg in fine
        ]
        best = int(np.argmax(shares))
        found.append((float(fine[best]), shares[best]))
    found.sort(key=lambda pair: -pair[1])
    return [pair for pair in found if pair[1] >= found[0][1] - slack_share]


def _peaks(turns: Floats, rough: Floats, slack: float) -> list[float]:
    """Return the turns that are best about themselves, with the neighbours of the very best."""
    order = np.argsort(-rough)
    best = float(turns[order[0]])
    found = [best]
    for k in order[1:]:
        away = min(abs((float(turns[k]) - other + 180.0) % 360.0 - 180.0) for other in found)
        if rough[k] < rough[order[0]] - slack or len(found) >= RIVALS_MOST:
            break
        if away >= APART_DEG:
            found.append(float(turns[k]))
    beside = [float(turns[k]) for k in order[1:3] if abs((turns[k] - best + 180) % 360 - 180) < APART_DEG]
    return found + beside


def _common(sections: Sequence[Floats], shape: PartShape, k: int, turn_deg: float, cell_mm2: float, most: int) -> float:
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

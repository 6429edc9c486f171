"""The lines of the layer model, layer by layer, as the tests' writer lays them; each solid is laid out once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.job import Settings
from planner.layers import Section, bead_area_mm2, laid_layers, shape_of
from planner.layers.lines.laid_lines import LaidLayer
from planner.layers.lines.paths import INFILL, TRAVEL
from planner.mesh import Solid

Floats = NDArray[np.float64]
_STACKS: dict[tuple[int, int], tuple[Solid, Settings, list[Layer]]] = {}


@dataclass(frozen=True, kw_only=True)
class Layer:
    """One layer of one copy: its runs of lines, each with its kind, and the bead's height."""

    top_mm: float
    high_mm: float
    runs: tuple[tuple[int, Floats], ...]
    narrow: tuple[tuple[Floats, float], ...] = ()
    """Loops round what is too narrow for lines, each with the share of a bead that fills it."""


def stack_of(solid: Solid, settings: Settings) -> list[Layer]:
    """Return the layers of a solid; each solid is laid out once for all tests."""
    key = id(solid), id(settings)
    if key not in _STACKS:
        whole, layers = laid_layers(solid, settings), []
        for section, laid in zip(whole.sections, whole.layers(), strict=True):
            runs = tuple(_runs(laid.path.points, laid.path.kinds))
            narrow = tuple(_narrow(section, runs, laid, settings)) if laid.narrow_mm2 > 0.2 else ()
            layers.append(Layer(top_mm=laid.top_mm, high_mm=laid.height_mm, runs=runs, narrow=narrow))
        _STACKS[key] = solid, settings, layers  # the solid is held, so that its id stays its own
    return _STACKS[key][2]


def _narrow(
    section: Section, runs: tuple[tuple[int, Floats], ...], laid: LaidLayer, settings: Settings
) -> Iterator[tuple[Floats, float]]:
    """Yield loops round what the lines of a layer leave open, infill's own gaps left out; loops fill it together."""
    width = settings.line_width_mm.value
    gap = 0.8 * width / max(settings.infill_percent.value / 100.0, 0.05)
    covered = [
        shapely.MultiLineString([points for kind, points in runs if (kind == INFILL) == infill]).buffer(
            reach, quad_segs=3
        )
        for infill, reach in ((False, width / 2), (True, gap))
    ]
    left = shape_of(section).difference(shapely.union_all(covered)).buffer(-0.02).buffer(0.02)
    for piece in shapely.get_parts(left):
        if piece.area > 0.1 and piece.geom_type == "Polygon":
            loop = piece.buffer(-0.06, quad_segs=2).simplify(0.05)
            loop = piece.simplify(0.05) if loop.geom_type != "Polygon" or loop.is_empty else loop
            points = np.asarray(loop.exterior.coords)
            share = piece.area * laid.height_mm / bead_area_mm2(width, laid.height_mm) / loop.exterior.length
            yield points, float(share)


def _runs(points: list[Floats], kinds: list[NDArray[np.int64]]) -> Iterator[tuple[int, Floats]]:
    """Yield lines laid in one go: travel and a change of kind part them."""
    if not points:
        return
    flat, kind = np.concatenate(points), np.concatenate(kinds)
    start = 0
    for k in range(1, len(kind) + 1):
        if k == len(kind) or kind[k] != kind[start]:
            if kind[start] != TRAVEL:
                yield int(kind[start]), flat[start : k + 1]
            start = k


def brim_of(layer: Layer, n: int, width_mm: float) -> list[tuple[int, Floats]]:
    """Return loops on the ground round a layer's hull, outermost first."""
    hull = shapely.MultiPoint(np.concatenate([points for _, points in layer.runs])).convex_hull
    return [(7, np.asarray(hull.buffer(width_mm * k).exterior.coords)) for k in range(n, 0, -1)]


def round_n(points: Floats) -> int:
    """Return how many moves from here on are chords of one arc, less than half a turn; 0 for fewer than six."""
    steps = np.diff(points[:40], axis=0)
    if len(steps) < 6:
        return 0
    length, heading = np.linalg.norm(steps, axis=1), np.arctan2(steps[:, 1], steps[:, 0])
    turn = (np.diff(heading) + np.pi) % (2 * np.pi) - np.pi
    same = (np.abs(turn - turn[0]) < 1e-3) & (np.abs(length[1:] - length[0]) < 1e-3 * length[0])
    n = 1 + int(np.argmin(same)) if not same.all() else len(steps)
    n = min(n, int(0.9 * np.pi / max(abs(turn[0]), 1e-6)))
    return n if n >= 6 and abs(turn[0]) > 0.02 else 0


@cache
def checksum(line: str) -> str:
    """Return a line with the checksum of its bytes (exclusive or), as serial links want it; common practice."""
    total = 0
    for byte in line.encode():
        total ^= byte
    return f"{line}*{total}"

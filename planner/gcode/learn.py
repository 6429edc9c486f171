"""Learn: the settings that a trusted program was made with, told from its motion and words alone."""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from planner.errors import ProgramError
from planner.gcode.reading.interpreter import moves_of
from planner.gcode.reading.machine_state import ACCELERATION, BED, DE, FAN, FEED, NOZZLE, X0, X1, Z0, Z1, start_state
from planner.gcode.reading.program_file import rows_of
from planner.gcode.runs import Runs, runs_of
from planner.job import SETTINGS_RANGES, Printer

Floats = NDArray[np.float64]

MOVES_MOST = 3_000_000
"""So many moves are looked at: settings repeat themselves."""
SOLID_LAYERS = 2
"""Fill of the lowest layers is solid; common practice, no source."""
WIDTHS_MM = (0.1, 3.0)
RANGES = {**SETTINGS_RANGES, "nozzle_c": (0.0, 600.0), "bed_c": (0.0, 300.0)}
"""What a job file takes: a program without heights, or in another unit, teaches nothing beyond it."""
NOT_IN_MOTION = {
    "contours_n": "how many contours stand side by side is not told from motion",
    "solid_top_mm": "which layers are meant as top ones is not told from motion",
    "solid_bottom_mm": "which layers are meant as bottom ones is not told from motion",
    "infill_percent": "the share of infill is not told from motion",
    "least_layer_s": "a least layer time shows only as slower lines",
    "self_supporting_deg": "a limit for support is not told from motion",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Learnt:
    """What was learnt, by the settings' own names, and what was not, with the reason."""

    values: dict[str, float]
    missing: dict[str, str]


def learnt(path: Path, printer: Printer) -> Learnt:
    """Read layer heights, line width, speeds, acceleration, temperatures and fan out of a program.

    Raises
    ------
    ProgramError
        It cannot be read, or lays no filament.
    """
    state = start_state(math.nan)
    parts, count = [], 0
    for values, codes in rows_of(path):
        parts.append(moves_of(values, codes, state))
        count += len(parts[-1])
        if count > MOVES_MOST:
            break
    moves = np.concatenate(parts)
    runs = runs_of(moves) if len(moves) else None
    if runs is None or not len(runs.z_mm):
        raise ProgramError(where=path.name, wrong="no move of it lays filament", todo="name the program that prints")
    heights = _heights(runs)
    found = {**heights, **_width(runs, heights, printer), **_speeds(moves, runs), **_set(moves)}
    missing = {name: why for name, why in NOT_IN_MOTION.items() if name not in found}
    for name in ("acceleration_mm_s2", "nozzle_c", "bed_c", "layer_height_mm", "line_width_mm"):
        if name not in found:
            missing[name] = "the program does not say it"
    for name, value in found.items():
        low, high = RANGES[name]
        if not low <= round(value, 3) <= high:
            missing[name] = f"the program has {value:.3g} there, which no setting can be"
    kept = {name: round(value, 3) for name, value in found.items() if name not in missing}
    return Learnt(values=kept, missing=missing)


def _mode(values: Floats, weights: Floats, digits: int) -> float | None:
    """Return the value that carries most weight, rounded; None where there is none."""
    good = np.isfinite(values)
    if not good.any():
        return None
    unique, index = np.unique(np.round(values[good], digits), return_inverse=True)
    return float(unique[np.argmax(np.bincount(index, weights=weights[good]))])


def _heights(runs: Runs) -> dict[str, float]:
    """Return the height of the first layer and the usual step."""
    unique, index = np.unique(np.round(runs.z_mm, 3), return_inverse=True)
    amount = np.bincount(index, weights=runs.filament_mm)
    used = unique[amount > 1e-4 * amount.sum()]
    steps = np.diff(used)
    found = {"first_layer_height_mm": float(used[0])}
    usual = _mode(steps, np.ones(len(steps)), 3)
    return found if usual is None else {**found, "layer_height_mm": usual}


def _width(runs: Runs, heights: dict[str, float], printer: Printer) -> dict[str, float]:
    """Return the usual line width: of a stadium of area A and height h, w = A/h + h (1 - pi/4) (geometry)."""
    high = heights.get("layer_height_mm", heights["first_layer_height_mm"])
    above = runs.z_mm > heights["first_layer_height_mm"] + 1e-6
    long = (runs.length_mm > 2.0) & (above if above.any() else True)
    if not long.any() or high <= 0.0:
        return {}
    area = runs.filament_mm[long] * math.pi * printer.filament_mm.value**2 / 4.0 / runs.length_mm[long]
    width = _mode(area / high + high * (1.0 - math.pi / 4.0), runs.length_mm[long], 2)
    return {"line_width_mm": width} if width is not None and WIDTHS_MM[0] < width < WIDTHS_MM[1] else {}


def _speeds(moves: Floats, runs: Runs) -> dict[str, float]:
    """Return speeds by kind: closed runs are contours, the slower ones outside; open runs are fill."""
    levels = np.unique(np.round(runs.z_mm, 3))
    first = np.round(runs.z_mm, 3) <= levels[0]
    low = np.round(runs.z_mm, 3) <= levels[min(SOLID_LAYERS, len(levels) - 1)]
    contour, fill = ~first & runs.closed, ~first & ~runs.closed & (runs.length_mm > 2.0)
    found = {
        "first_layer_speed_mm_s": _mode(runs.feed_mm_s[first], runs.length_mm[first], 1),
        "solid_fill_speed_mm_s": _mode(runs.feed_mm_s[fill & low], runs.length_mm[fill & low], 1),
        "infill_speed_mm_s": _mode(runs.feed_mm_s[fill & ~low], runs.length_mm[fill & ~low], 1),
    }
    speeds = runs.feed_mm_s[contour]
    if len(speeds) and np.isfinite(speeds).any():
        two = [
            speed for speed in np.unique(np.round(speeds[np.isfinite(speeds)], 1)) if _share(runs, contour, speed) > 0.1
        ]
        if two:
            found["outer_contour_speed_mm_s"], found["inner_contour_speed_mm_s"] = float(two[0]), float(two[-1])
    length = np.linalg.norm(moves[:, X1 : Z1 + 1] - moves[:, X0 : Z0 + 1], axis=1)
    travel = (moves[:, DE] <= 0) & (length > 2.0)
    found["travel_speed_mm_s"] = _mode(moves[travel, FEED], length[travel], 1)
    return {name: value for name, value in found.items() if value is not None}


def _share(runs: Runs, among: NDArray[np.bool_], speed: float) -> float:
    """Return the share of contour length at a speed."""
    at = among & (np.abs(runs.feed_mm_s - speed) < 0.06)
    return float(runs.length_mm[at].sum() / max(runs.length_mm[among].sum(), 1e-9))


def _set(moves: Floats) -> dict[str, float]:
    """Return what the words set while most filament was laid: temperatures, fan, acceleration."""
    laid = moves[moves[:, DE] > 0]
    found = {
        name: _mode(laid[:, column] * factor, laid[:, DE], digits)
        for name, column, factor, digits in (
            ("nozzle_c", NOZZLE, 1.0, 1),
            ("bed_c", BED, 1.0, 1),
            ("fan_percent", FAN, 100.0, 0),
            ("acceleration_mm_s2", ACCELERATION, 1.0, 0),
        )
    }
    return {name: value for name, value in found.items() if value is not None}

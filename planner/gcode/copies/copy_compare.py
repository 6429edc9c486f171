"""One copy against its part: place, size, height, every layer's areas both ways, and filament."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from planner.gcode.copies.differences import Difference, Stack
from planner.gcode.copies.layer_areas import LayerAreas, layer_areas, want_of
from planner.gcode.copies.part_as_planned import Original
from planner.gcode.copies.piece import Piece, part_heights_mm
from planner.gcode.copies.pose_fit import Fit, fitted
from planner.gcode.matching.match import Pose
from planner.job import Limits, Settings

Floats = NDArray[np.float64]

TRIED_N = 5
"""So many layers decide between poses that look alike."""
MIRRORED = 0.004
"""A mirrored copy must differ by this share of its area less than the plan's own to be called so."""
EQUAL = 0.001
"""Where no more than this share of the area differs, no other pose can be better."""
ODD_FEED = 0.08
"""Filament that is off by more than this is taken out before areas are compared: it is told by itself."""
SOLID_SHARE = 0.97
WINDOW_N = 5
"""Filament is summed over so many layers: patterns lay more on one layer and less on the next."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CopyReport:
    """What one copy is: its pose, size, heights, and where it differs. Heights in mm on the bed."""

    fit: Fit
    bottom_mm: float
    top_mm: float
    gaps_mm: tuple[tuple[float, float], ...]
    over: tuple[Difference, ...]
    open: tuple[Difference, ...]
    solid_fed_share: float | None
    """Filament over what fills the solid layers; None where no layer is solid."""
    motion_fed_share: float
    """Filament over what beads of the planned width along the same lines take."""
    windows: tuple[Window, ...]
    layers_n: int
    least_top_mm: float
    """The part's top, or where it gets too narrow for two lines below that."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """Some layers on each other: their heights, filament over the plan's, and over what the motion takes."""

    low_mm: float
    high_mm: float
    planned_share: float
    motion_share: float


def best_fit(piece: Piece, original: Original, poses: tuple[Pose, ...], settings: Settings) -> tuple[Fit, float]:
    """Return the pose that differs least by exact sections, with the share of its area that differs."""
    best: tuple[Fit, float] | None = None
    for pose in poses:
        fit = fitted(piece, original.sections_of(pose), pose)
        share = _mismatch(piece, original, fit, settings)
        if best is None or share + MIRRORED * pose.mirrored < best[1] + MIRRORED * best[0].pose.mirrored:
            best = fit, share
        if not pose.mirrored and share < EQUAL:
            break
    assert best is not None, "a match has a pose"
    return best


def _mismatch(piece: Piece, original: Original, fit: Fit, settings: Settings) -> float:
    """Return the share of area that differs, over some layers."""
    some = (
        np.unique(np.linspace(1, len(piece.tops_mm) - 1, TRIED_N).round().astype(int))
        if len(piece.tops_mm) > 1
        else [0]
    )
    found = [_layer(piece, original, fit.pose, int(k), settings) for k in some]
    cell = original.raster(fit.pose).cell_mm ** 2
    wrong = sum(float(one.over.sum() + one.open.sum()) * cell for one in found)
    return wrong / max(sum(one.section_mm2 for one in found), 1e-9)


def _layer(piece: Piece, original: Original, pose: Pose, k: int, settings: Settings) -> LayerAreas:
    """Compare one layer."""
    want = want_of(original.sections_of(pose), piece, pose, k, settings)
    allowed = original.allowed(pose, part_heights_mm(piece, pose, k)[1])
    return layer_areas(original.raster(pose), piece, pose, k, want, allowed, settings)


def compared(
    piece: Piece, original: Original, poses: tuple[Pose, ...], settings: Settings, limits: Limits
) -> CopyReport:
    """Compare a copy with its part in the best of some poses; differences under their limits are none."""
    fit, _ = best_fit(piece, original, poses, settings)
    solid_fed, line_fed = _solid_fed(piece, original, fit, settings)
    if abs((solid_fed or line_fed) - 1.0) > ODD_FEED < abs(line_fed - 1.0):
        piece = replace(piece, feed_share=line_fed)
        fit, _ = best_fit(piece, original, poses, settings)
    raster = original.raster(fit.pose)
    over, left_open = Stack(raster), Stack(raster)
    rows: list[LayerAreas] = []
    hollow = np.zeros(raster.shape, dtype=np.bool_)
    for k in range(len(piece.tops_mm)):
        found = _layer(piece, original, fit.pose, k, settings)
        height, top = piece.height_mm(k), float(piece.tops_mm[k])
        over.add(found.over, height, top)
        left_open.add(found.open | (found.hollow & hollow), height, top)
        hollow = found.hollow
        rows.append(found)
    steps = np.diff(piece.tops_mm)
    usual = max(float(np.median(steps)) if len(steps) else 0.0, settings.layer_height_mm.value)
    gap = limits.of("program.gap", "most_step_ratio").value
    outside = [limits.of("program.outside", key).value for key in ("area_mm2", "volume_mm3")]
    lacks = [limits.of("program.lacks", key).value for key in ("area_mm2", "volume_mm3")]
    return CopyReport(
        fit=fit,
        bottom_mm=float(piece.tops_mm[0]),
        top_mm=float(piece.tops_mm[-1]),
        gaps_mm=tuple(
            (float(low), float(low + step))
            for low, step in zip(piece.tops_mm[:-1], steps, strict=True)
            if step > gap * usual
        ),
        over=over.differences(*outside),
        open=left_open.differences(*lacks),
        solid_fed_share=solid_fed,
        motion_fed_share=sum(r.laid_mm3 for r in rows) / max(sum(r.motion_mm3 for r in rows), 1e-9),
        windows=_windows(piece, rows),
        layers_n=len(rows),
        least_top_mm=_broad_top_mm(original, settings),
    )


def _broad_top_mm(original: Original, settings: Settings) -> float:
    """Return the part's top, or the height where what is left gets too narrow for two lines beside each other."""
    height, layer = original.solid.size_mm[2], settings.layer_height_mm.value
    width = settings.line_width_mm.value
    z = height - layer / 2.0
    while z > 0.0 and original.sections.at(z).offset(-width).is_empty():
        z -= layer
    return z + layer / 2.0 if z > 0.0 else height


def _solid_fed(piece: Piece, original: Original, fit: Fit, settings: Settings) -> tuple[float | None, float]:
    """Return the filament over what fills the lowest solid layers, and over what the motion of all low layers takes.

    The first layer is left out: it is pressed flat. None where none of them is solid.
    """
    bottom = max(2, round(settings.solid_bottom_mm.value / settings.layer_height_mm.value))
    found = [_layer(piece, original, fit.pose, k, settings) for k in range(1, min(bottom, len(piece.tops_mm)))]
    solid = [one for one in found if one.solid_share > SOLID_SHARE and one.most_mm3 > 0.0]
    line = sum(one.laid_mm3 for one in found) / max(sum(one.motion_mm3 for one in found), 1e-9) if found else 1.0
    return (sum(one.laid_mm3 for one in solid) / sum(one.most_mm3 for one in solid) if solid else None), line


def _windows(piece: Piece, rows: list[LayerAreas]) -> tuple[Window, ...]:
    """Return the filament of every few layers; the first is left out: brims and presses differ."""
    found = []
    for start in range(1, max(len(rows) - WINDOW_N + 1, 2), 2):
        some = rows[start : start + WINDOW_N]
        laid = sum(r.laid_mm3 for r in some)
        least, most = sum(r.least_mm3 for r in some), sum(r.most_mm3 for r in some)
        if least > 0.0 and len(some) == WINDOW_N:
            found.append(
                Window(
                    low_mm=float(piece.tops_mm[start - 1]),
                    high_mm=float(piece.tops_mm[start + len(some) - 1]),
                    planned_share=laid / min(max(laid, least), most),
                    motion_share=laid / max(sum(r.motion_mm3 for r in some), 1e-9),
                )
            )
    return tuple(found)

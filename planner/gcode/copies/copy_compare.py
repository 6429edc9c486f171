"""One copy against its part: place, size, height, every layer's areas both ways, and filament."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from planner.gcode.copies.differences import Difference, Stack
from planner.gcode.copies.fine_raster import FineRaster
from planner.gcode.copies.layer_areas import LayerAreas, layer_areas, want_of
from planner.gcode.copies.piece import Piece, Sections, part_heights_mm
from planner.gcode.copies.pose_fit import Fit, fitted
from planner.gcode.matching.match import Pose
from planner.job import Settings
from planner.layers import Section, laid_layers
from planner.mesh import Solid

Floats = NDArray[np.float64]

AROUND_MM = 2.0
TRIED_N = 5
"""So many layers decide between poses that look alike."""
SUPPORT_MM = 1.5
"""Support may stand this far beside the planned support."""
MIRRORED = 0.004
"""A mirrored copy must differ by this share of its area less than the plan's own to be called so."""
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
    solid_fed: float | None
    """Filament over what fills the solid layers; None where no layer is solid."""
    motion_fed: float
    """Filament over what beads of the planned width along the same lines take."""
    windows: tuple[Window, ...]
    layers_n: int
    mismatch: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """Some layers on each other: their heights, filament over the plan's, and over what the motion takes."""

    low_mm: float
    high_mm: float
    planned: float
    motion: float


@dataclass(frozen=True, kw_only=True)
class Original:
    """A part and its mirror image, with their sections and where support may stand."""

    solid: Solid
    mirrored: Solid
    sections: Sections
    mirrored_sections: Sections
    support: tuple[Section, ...]
    support_tops_mm: Floats

    @classmethod
    def of(cls, solid: Solid, settings: Settings, *, support: bool) -> Original:
        """Return a sound part; where it stands on support, the plan's own support says where that may be."""
        mirrored = solid.mirrored()
        laid = laid_layers(solid, settings) if support else None
        return cls(
            solid=solid,
            mirrored=mirrored,
            sections=Sections.of(solid),
            mirrored_sections=Sections.of(mirrored),
            support=tuple(region.offset(SUPPORT_MM) for region in laid.supports.regions) if laid else (),
            support_tops_mm=laid.tops_mm if laid else np.empty(0),
        )

    def sections_of(self, pose: Pose) -> Sections:
        """Return the sections that a pose lies over."""
        return self.mirrored_sections if pose.mirrored else self.sections

    def raster(self, pose: Pose) -> FineRaster:
        """Return a raster over the part."""
        bounds = (self.mirrored if pose.mirrored else self.solid).bounds_mm
        return FineRaster.over(bounds[0, :2], bounds[1, :2], AROUND_MM)

    def allowed(self, pose: Pose, z_mm: float) -> Section:
        """Return where support may stand at a height; of a mirrored piece its image."""
        if not self.support:
            return Section()
        region = self.support[min(int(np.searchsorted(self.support_tops_mm, z_mm)), len(self.support) - 1)]
        return region.mirror((1.0, 0.0)) if pose.mirrored else region


def best_fit(piece: Piece, original: Original, poses: tuple[Pose, ...], settings: Settings) -> tuple[Fit, float]:
    """Return the pose that differs least by exact sections, with the share of its area that differs."""
    tried = [fitted(piece, original.sections_of(pose), pose) for pose in poses]
    shares = [_mismatch(piece, original, fit, settings) for fit in tried]
    index = min(range(len(tried)), key=lambda k: shares[k] + MIRRORED * tried[k].pose.mirrored)
    return tried[index], shares[index]


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


def compared(piece: Piece, original: Original, poses: tuple[Pose, ...], settings: Settings) -> CopyReport:
    """Compare a copy with its part in the best of some poses."""
    fit, mismatch = best_fit(piece, original, poses, settings)
    solid_fed = _solid_fed(piece, original, fit, settings)
    if solid_fed is not None and abs(solid_fed - 1.0) > 0.08:
        piece = replace(piece, feed=solid_fed)
        fit, mismatch = best_fit(piece, original, poses, settings)
    raster = original.raster(fit.pose)
    over, left_open = Stack(raster), Stack(raster)
    rows = []
    for k in range(len(piece.tops_mm)):
        found = _layer(piece, original, fit.pose, k, settings)
        height, top = piece.height_mm(k), float(piece.tops_mm[k])
        over.add(found.over, height, top)
        left_open.add(found.open, height, top)
        rows.append(found)
    steps = np.diff(piece.tops_mm)
    usual = max(float(np.median(steps)) if len(steps) else 0.0, settings.layer_height_mm.value)
    return CopyReport(
        fit=fit,
        bottom_mm=float(piece.tops_mm[0]),
        top_mm=float(piece.tops_mm[-1]),
        gaps_mm=tuple(
            (float(low), float(low + step))
            for low, step in zip(piece.tops_mm[:-1], steps, strict=True)
            if step > 1.5 * usual
        ),
        over=over.differences(),
        open=left_open.differences(),
        solid_fed=solid_fed,
        motion_fed=sum(r.laid_mm3 for r in rows) / max(sum(r.motion_mm3 for r in rows), 1e-9),
        windows=_windows(piece, rows),
        layers_n=len(rows),
        mismatch=mismatch,
    )


def _solid_fed(piece: Piece, original: Original, fit: Fit, settings: Settings) -> float | None:
    """Return the filament over what fills the lowest layers that are solid, the first left out: it is pressed flat."""
    bottom = max(2, round(settings.solid_bottom_mm.value / settings.layer_height_mm.value))
    found = [_layer(piece, original, fit.pose, k, settings) for k in range(1, min(bottom, len(piece.tops_mm)))]
    solid = [one for one in found if one.solid_share > SOLID_SHARE and one.planned_mm3 > 0.0]
    return sum(one.laid_mm3 for one in solid) / sum(one.planned_mm3 for one in solid) if solid else None


def _windows(piece: Piece, rows: list[LayerAreas]) -> tuple[Window, ...]:
    """Return the filament of every few layers; the first is left out: brims and presses differ."""
    found = []
    for start in range(1, max(len(rows) - WINDOW_N + 1, 2), 2):
        some = rows[start : start + WINDOW_N]
        laid, planned = sum(r.laid_mm3 for r in some), sum(r.planned_mm3 for r in some)
        if planned > 0.0 and len(some) == WINDOW_N:
            found.append(
                Window(
                    low_mm=float(piece.tops_mm[start - 1]),
                    high_mm=float(piece.tops_mm[start + len(some) - 1]),
                    planned=laid / planned,
                    motion=laid / max(sum(r.motion_mm3 for r in some), 1e-9),
                )
            )
    return tuple(found)

"""What one layer of a piece should fill and what it fills: area outside, area left open, and filament."""

from __future__ import annotations

from dataclasses import dataclass

import manifold3d
import numpy as np
from manifold3d import OpType
from numpy.typing import NDArray
from scipy import ndimage

from planner.gcode.copies.fine_raster import FineRaster
from planner.gcode.copies.piece import Piece, Sections, part_heights_mm
from planner.gcode.matching.match import Pose
from planner.gcode.strokes import Strokes
from planner.job import Settings
from planner.layers import Section, bead_area_mm2, pitch_mm

Floats = NDArray[np.float64]
Cells = NDArray[np.bool_]

EDGE_MM = 0.15
"""Beads may end this far beside the outline: a seam, a rounded corner; a third of a line."""
PRESSED_MM = 0.35
"""On the lowest layers they may end this far beside it: the first layer is pressed flat, or held back for that."""
RIM_MM = 0.2
"""So wide is the rim inside the outline that a contour must cover."""
BLOCK_N = 3
"""Voids inside are looked for on a raster this much coarser."""
OPEN_SOLID_MM = 0.6
"""A place in a solid layer with no bead this near is open; in infill the distance follows its lines."""
OPEN_THIN_MM = 0.35
"""A place too narrow for two lines, with no bead this near, is left out."""
INFILL_SLACK = 1.3
SKIN_N = 2
"""So many layers under every top and over every bottom are solid in any program; common practice, no source."""
BESIDE_MM = 0.3
"""A line whose middle lies this far outside the section is no part of it: support, brim, a wipe."""
MITER = manifold3d.JoinType.Miter


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LayerAreas:
    """Of one layer: cells that are filled and should not be, cells that are open and should not be, and filament.

    ``laid_mm3`` was laid inside, ``motion_mm3`` is what beads of the planned width along the same lines take, and
    ``least_mm3``, ``most_mm3`` what contours and fill take, solid faces a layer thinner or thicker.
    """

    over: Cells
    open: Cells
    hollow: Cells
    """Where no infill is near; some programs lay it on every other layer only."""
    section_mm2: float
    laid_mm3: float
    motion_mm3: float
    least_mm3: float
    most_mm3: float
    solid_share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Want:
    """What a part wants in a layer: its outlines at bottom, middle and top together, in common, and the middle one."""

    most: Section
    least: Section
    middle: Section
    solid: Section
    """Where the layer is solid in any program: near a top or a bottom."""
    infill_most: Section
    infill_least: Section
    """Where the plan lays infill, solid fill taken a layer thinner, and thicker."""


def want_of(sections: Sections, piece: Piece, pose: Pose, k: int, settings: Settings) -> Want:
    """Return what a part wants in a layer of a piece."""
    low, middle, high = part_heights_mm(piece, pose, k)
    cuts = [sections.at(z) for z in (low, middle, high)]
    layer = settings.layer_height_mm.value
    core = _core(sections, middle, layer, SKIN_N, SKIN_N)
    below, above = (round(mm.value / layer) for mm in (settings.solid_bottom_mm, settings.solid_top_mm))
    return Want(
        most=Section.batch_boolean(cuts, OpType.Add),
        least=Section.batch_boolean(cuts, OpType.Intersect),
        middle=cuts[1],
        solid=cuts[1] - core,
        infill_most=_core(sections, middle, layer, below - 1, above - 1),
        infill_least=_core(sections, middle, layer, below + 1, above + 1),
    )


def _core(sections: Sections, z_mm: float, layer_mm: float, below_n: int, above_n: int) -> Section:
    """Return where there is plastic on some layers below and above too."""
    near = [sections.at(z_mm + n * layer_mm) for n in range(-below_n, above_n + 1)]
    return Section.batch_boolean(near, OpType.Intersect)


def layer_areas(
    raster: FineRaster, piece: Piece, pose: Pose, k: int, want: Want, allowed: Section, settings: Settings
) -> LayerAreas:
    """Compare a layer of a piece with what the part wants; ``allowed`` is where support may stand."""
    strokes, height = piece.layer(k), piece.height_mm(k)
    factor = float(np.sqrt(abs(np.linalg.det(pose.matrix))))
    placed = strokes.seen_from(pose.matrix, pose.offset_mm)
    width = piece.widths_mm(strokes, height) * factor
    ground = float(piece.tops_mm[k]) <= piece.first_mm + settings.layer_height_mm.value
    edge = PRESSED_MM if ground else EDGE_MM
    filled = raster.beads(placed.start_mm, placed.end_mm, width)
    inside = raster.at(raster.section(want.most.offset(BESIDE_MM, MITER)), placed.middle_mm)
    over = filled & ~raster.section(want.most.offset(edge) + allowed)
    if float(piece.tops_mm[k]) <= piece.first_mm * 1.5:
        over[:] = False  # on the ground a brim may lie round it
    broad = _opened(want.middle, 1.8 * settings.line_width_mm.value)
    rim = raster.section(broad.offset(-edge) ^ want.least.offset(-edge)) & ~raster.section(broad.offset(-edge - RIM_MM))
    left_open, hollow = _voids(raster, filled, want, height, settings)
    return LayerAreas(
        over=over,
        open=(rim & ~filled) | left_open,
        hollow=hollow,
        section_mm2=float(want.middle.area()),
        **_filament(placed, strokes, inside, height, want, factor, settings),
    )


def _voids(raster: FineRaster, filled: Cells, want: Want, height_mm: float, settings: Settings) -> tuple[Cells, Cells]:
    """Return cells too far from any bead where the layer is solid or thin, and in infill."""
    rows, columns = (-(-n // BLOCK_N) for n in raster.shape)
    padded = np.zeros((rows * BLOCK_N, columns * BLOCK_N), dtype=np.bool_)
    padded[: raster.shape[0], : raster.shape[1]] = filled
    # By strides: a twentieth of the time of any() over two axes of a reshaped raster.
    bands = np.logical_or.reduce([padded[k::BLOCK_N] for k in range(BLOCK_N)])
    blocks = np.logical_or.reduce([bands[:, k::BLOCK_N] for k in range(BLOCK_N)])
    block = BLOCK_N * raster.cell_mm
    away = ndimage.distance_transform_edt(~blocks) * block
    share = settings.infill_percent.value / 100.0
    inset = EDGE_MM + RIM_MM
    width = settings.line_width_mm.value
    thin = _opened(want.least, 0.9 * width) - _opened(want.middle, 1.8 * width).offset(EDGE_MM)
    found = (away > OPEN_THIN_MM) & _coarse(raster, thin.offset(-EDGE_MM))
    found |= (away > OPEN_SOLID_MM) & _coarse(raster, want.solid ^ want.least.offset(-inset))
    hollow = np.zeros_like(found)
    if share > 0.0:
        reach = INFILL_SLACK * pitch_mm(width, height_mm, share)
        hollow = (away > reach) & _coarse(raster, want.least.offset(-inset))
    return _refined(raster, found), _refined(raster, hollow)


def _refined(raster: FineRaster, coarse: Cells) -> Cells:
    """Return the cells of the coarser raster on the fine one."""
    fine: Cells = coarse.repeat(BLOCK_N, axis=0).repeat(BLOCK_N, axis=1)[: raster.shape[0], : raster.shape[1]]
    return fine


def _opened(section: Section, wide_mm: float) -> Section:
    """Return a section without what is narrower than a width."""
    return section.offset(-wide_mm / 2, MITER).offset(wide_mm / 2, MITER)


def _coarse(raster: FineRaster, section: Section) -> Cells:
    """Return a section on the coarser raster."""
    rows, columns = (-(-n // BLOCK_N) for n in raster.shape)
    coarse = FineRaster(origin_mm=raster.origin_mm, cell_mm=BLOCK_N * raster.cell_mm, shape=(rows, columns))
    return coarse.section(section)


def _filament(
    placed: Strokes, strokes: Strokes, inside: Cells, height_mm: float, want: Want, factor: float, settings: Settings
) -> dict[str, float]:
    """Return what was laid inside, what the motion takes at the planned width, and what the plan's fill takes."""
    width = settings.line_width_mm.value
    share = settings.infill_percent.value / 100.0
    pitch = pitch_mm(width, height_mm)
    band = want.middle - want.middle.offset(-(settings.contours_n * pitch + (width - pitch) / 2), MITER)
    area = float(want.middle.area())
    most, least = (float((region - band).area()) for region in (want.infill_most, want.infill_least))
    return {
        "laid_mm3": float(strokes.volume_mm3[inside].sum()) * factor**2,
        "motion_mm3": float(placed.length_mm[inside].sum()) * bead_area_mm2(width, height_mm),
        "least_mm3": (area - (1.0 - share) * most) * height_mm,
        "most_mm3": (area - (1.0 - share) * least) * height_mm,
        "solid_share": 1.0 - most / max(area, 1e-9),
    }

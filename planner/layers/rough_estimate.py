"""A rough estimate of a part in a pose, from some sixty sections: enough to weigh one pose against another."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from planner.cache import kept, key_of
from planner.job import Material, Printer, Settings
from planner.layers.estimate import LAYER_CHANGE_S, LAYERS_VERSION, mass_g
from planner.layers.lines.bead import bead_area_mm2, pitch_mm
from planner.layers.lines.laid_lines import SUPPORT_LEAST_MM3
from planner.layers.lines.section import Section, rings_of, sections_of
from planner.layers.lines.support import SHARE, supports_of
from planner.mesh import Solid

Floats = NDArray[np.float64]

ROUGH_VERSION = 1
"""Raised whenever a rough estimate changes, so that kept ones are not trusted."""
STEP_MM, SECTIONS_LEAST, SECTIONS_MOST = 0.5, 12, 120
SIMPLIFY_MM = 0.01
MOVES_S = 0.35
"""Moves, starts and corners of one island in one layer; fitted to full estimates of the sample parts."""
SLOWER, FILL_MOVES = 1.2, 1.3
"""What acceleration adds to the time at full speed, and moves from line to line to that of fill; fitted likewise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoughEstimate:
    """One copy in a pose: printing time, plastic with its support, and the area that lies on support."""

    print_min: float
    plastic_g: float
    support_mm3: float
    supported_mm2: float


def rough_estimate(solid: Solid, *, settings: Settings, printer: Printer, material: Material) -> RoughEstimate:
    """Estimate a solid, standing on z = 0 in its pose, by its sections; kept on disk.

    Contours take the outline's length, fill what is left inside them: solid where a section is not covered by its
    neighbours, to the depth of the solid layers, elsewhere with the share of the infill. Within some 20 % of
    :func:`estimate_part`.
    """
    melt = min(printer.melt_rate_mm3_s.value, material.melt_rate_mm3_s.value)
    facts = (solid.vertices_mm.tobytes(), solid.faces.tobytes(), solid.faults, settings)
    rest = (melt, printer.speed_max_mm_s.value, material.density_g_cm3.value)
    key = key_of(ROUGH_VERSION, LAYERS_VERSION, *facts, *rest)
    return kept("rough", key, RoughEstimate, lambda: _rough(solid, settings, printer, material, melt))


def _rough(solid: Solid, settings: Settings, printer: Printer, material: Material, melt: float) -> RoughEstimate:
    """Cut the solid and sum up what every section stands for."""
    height, layer = float(solid.bounds_mm[1, 2]), settings.layer_height_mm.value
    n = min(max(math.ceil(height / STEP_MM), SECTIONS_LEAST), SECTIONS_MOST)
    step = max(height, 1e-9) / n
    found, _ = sections_of(solid, (np.arange(n, dtype=np.float64) + 0.5) * np.float64(step))
    sections = [section.simplify(SIMPLIFY_MM) for section in found]
    width = settings.line_width_mm.value
    bead, pitch = bead_area_mm2(width, layer), pitch_mm(width, layer)
    area = np.array([float(section.area()) for section in sections])
    rim = np.array([_rim_mm(section) for section in sections])
    islands_n = np.array([section.num_contour() for section in sections])
    contours = np.minimum(rim * settings.contours_n * pitch, area)  # area that the contours take
    bare = _bare_mm3(sections, area, settings.solid_top_mm.value, settings.solid_bottom_mm.value)
    inner = np.maximum(area - contours, 0.0)
    inner_mm3 = float(inner.sum()) * step
    solid_mm3 = min(float((bare * inner / np.maximum(area, 1e-9)).sum()), inner_mm3)
    infill_mm3 = (inner_mm3 - solid_mm3) * settings.infill_percent.value / 100.0
    contours_mm3 = float(contours.sum()) * step
    supports = supports_of(sections, step, settings.self_supporting_deg.value)
    space = supports.volume_mm3(step)
    support = SHARE * space if space > SUPPORT_LEAST_MM3 and settings.support == "where-needed" else 0.0
    contours_n = max(settings.contours_n, 1)  # none: they lay nothing
    kinds = (
        (contours_mm3 / contours_n, settings.outer_contour_speed_mm_s),
        (contours_mm3 * (1 - 1 / contours_n), settings.inner_contour_speed_mm_s),
        (FILL_MOVES * solid_mm3, settings.solid_fill_speed_mm_s),
        (FILL_MOVES * infill_mm3 + support, settings.infill_speed_mm_s),
    )
    fastest = min(printer.speed_max_mm_s.value, melt / bead)
    laid_s = sum(mm3 / bead / min(speed.value, fastest) for mm3, speed in kinds)
    layers_s = height / layer * LAYER_CHANGE_S + float(islands_n.sum()) * step / layer * MOVES_S
    plastic_mm3 = contours_mm3 + solid_mm3 + infill_mm3 + support
    return RoughEstimate(
        print_min=(SLOWER * float(laid_s) + layers_s) / 60.0,
        plastic_g=mass_g(plastic_mm3, material).value,
        support_mm3=float(support),
        supported_mm2=supports.touched_mm2 if support else 0.0,
    )


def _rim_mm(section: Section) -> float:
    """Return the length of all outlines of a section."""
    return float(sum(np.linalg.norm(np.roll(ring, -1, axis=0) - ring, axis=1).sum() for ring in rings_of(section)))


def _bare_mm3(sections: list[Section], area: Floats, top_mm: float, bottom_mm: float) -> Floats:
    """Return the volume (n,) of solid layers under and over what each section's neighbours leave bare."""
    shared = np.array([float((one ^ other).area()) for one, other in pairwise(sections)])
    above, below = np.append(shared, 0.0), np.append(0.0, shared)
    return np.asarray((area - above) * top_mm + (area - below) * bottom_mm)

"""What a part is made of when it is screened: strengths, layer normal, skin and infill."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Vec3
from planner.job import Material, Settings
from planner.strength.criterion import Strengths


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamStuff:
    """Strengths and build of a printed part; lengths as printed, whatever the scale.

    Parameters
    ----------
    strengths
        The low ends of the material's ranges.
    normal
        The layer normal in the mesh's frame.
    side_mm, level_mm
        Thickness of the solid skin: contours at the sides, solid layers above and below.
    infill_share
        Of the volume inside.
    """

    strengths: Strengths
    normal: Vec3
    side_mm: float
    level_mm: float
    infill_share: float


def stuff_of(material: Material, settings: Settings, down: Vec3) -> BeamStuff:
    """Return what a part is made of in a pose: the layer normal is the direction away from the bed."""
    return BeamStuff(
        strengths=Strengths(
            along_mpa=material.strength_along_mpa.low,
            across_mpa=material.strength_across_layers_mpa.low,
            shear_mpa=material.shear_mpa.low,
        ),
        normal=(-down[0], -down[1], -down[2]),
        side_mm=settings.contours_n * settings.line_width_mm.value,
        level_mm=min(settings.solid_top_mm.value, settings.solid_bottom_mm.value),
        infill_share=settings.infill_percent.value / 100.0,
    )

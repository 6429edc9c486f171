"""What the copies that a joint moves weigh, told from volume and surface: nothing is sliced for it."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from planner.job import Job, part_of
from planner.mechanism.force.driven_joint import Mass
from planner.mesh import Solid


def masses_of(job: Job, solids: Mapping[str, Solid], copies: Collection[str], factor: float) -> tuple[Mass, ...]:
    """Return masses of copies at a scale; of materials that are still open the densest counts."""
    materials = [job.material] if job.material is not None else list(job.materials)
    density = max((one.density_g_cm3.value for one in materials), default=0.0)
    found = []
    for copy in sorted(copies):
        solid = solids[part_of(copy)]
        if solid.sound:
            x, y, z = (float(v) for v in solid.trimesh.center_mass)
            grams = density * laid_mm3(job, solid, factor) / 1000.0
            found.append(Mass(copy=copy, at_mm=(x, y, z), mass_g=grams))
    return tuple(found)


def laid_mm3(job: Job, solid: Solid, factor: float) -> float:
    """Return about how much plastic a part takes at a scale: a skin as thick as its contours, and infill within.

    It lies above what is printed where the part is thin all over, since skins that meet count no more than once.
    """
    volume, area = abs(solid.volume_mm3) * factor**3, solid.area_mm2 * factor**2
    skin = min(job.settings.contours_n * job.settings.line_width_mm.value * area, volume)
    return skin + job.settings.infill_percent.value / 100.0 * (volume - skin)

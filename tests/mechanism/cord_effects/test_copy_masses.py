"""What parts weigh."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.mechanism.cord_effects.copy_masses import laid_mm3, masses_of
from tests.mechanism.cord_effects.one_jaw import one_jaw


def test_a_part_weighs_its_skin_and_its_infill_at_its_centre_of_mass(tmp_path: Path) -> None:
    """By hand for a plate of 5 mm with three lines of skin: less than solid, more than its infill, growing with size."""
    device = one_jaw(tmp_path)
    job, jaw = device.job, device.solids["jaw"]
    (mass,) = masses_of(job, device.solids, {"jaw"}, 1.0)
    skin = job.settings.contours_n * job.settings.line_width_mm.value * jaw.area_mm2
    rest = job.settings.infill_percent.value / 100.0 * (jaw.volume_mm3 - skin)

    assert job.material is not None
    assert mass.mass_g == pytest.approx(job.material.density_g_cm3.value * (skin + rest) / 1000.0)
    assert mass.at_mm == pytest.approx((30.1, 0.0, 2.5), abs=0.1)
    assert laid_mm3(job, jaw, 0.2) == pytest.approx(jaw.volume_mm3 * 0.008)  # all skin
    assert laid_mm3(job, jaw, 1.0) < laid_mm3(job, jaw, 1.5) < jaw.volume_mm3 * 1.5**3

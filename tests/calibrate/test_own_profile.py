"""The own profile: measured numbers go in, everything else stays as it was."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from planner.calibrate import Readings, fitted, own_profile
from planner.job import printer_text, read_printer
from tests.calibrate.noisy_readings import noisy_readings

DAY = date(2026, 11, 25)


INLINE = """about = "mine"
bed = { shape = "rectangle", size_mm = [200.0, 200.0], height_mm = 200.0, margin_mm = 5.0 }
nozzle_mm = 0.4
filament_mm = 1.75
nozzle_max_c = 260.0
bed_max_c = 100.0
speed_max_mm_s = 180.0
acceleration_max_mm_s2 = 3000.0
corner_deviation_mm = 0.02
melt_rate_mm3_s = 11.0
undersize = { upright_mm = 0.20, upright_low_mm = 0.10, upright_high_mm = 0.30, lying_mm = 0.35, lying_low_mm = 0.20, lying_high_mm = 0.50 }
least_gap_mm = 0.30
heat_up_s = 300.0
plate_change_s = 900.0
power_w = { heating = 300.0, printing = 120.0 }
failure_per_hour = 0.01
"""


@pytest.mark.parametrize("base", ["bench-220", "round-240", "inline"])
def test_the_own_profile_loads_with_the_measured_numbers(base: str, tmp_path: Path) -> None:
    """Shipped or inline, everything else stands as it stood."""
    text = INLINE if base == "inline" else printer_text(base, tmp_path)
    (tmp_path / "before.toml").write_text(text, encoding="utf-8")
    readings = Readings(printer=base, material="petg", nozzle_mm=0.4, taken=DAY, readings=())
    found = fitted(noisy_readings(0.14, 0.27, 0.01, 2), "coupon")
    (tmp_path / "own.toml").write_text(
        own_profile(
            text,
            {"upright_mm": found.upright_mm, "lying_mm": found.lying_mm, "least_gap_mm": found.least_gap_mm},
            readings,
        ),
        encoding="utf-8",
    )
    before, after = read_printer("before.toml", tmp_path), read_printer("own.toml", tmp_path)

    assert found.upright_mm is not None
    assert found.lying_mm is not None
    assert after.undersize.upright_mm.value == pytest.approx(found.upright_mm.value, abs=1e-3)
    assert after.undersize.lying_mm.high == pytest.approx(found.lying_mm.high, abs=1e-3)
    assert after.least_gap_mm.value == 0.2
    assert after.calibrated
    assert after.calibrated_for is not None
    assert (after.calibrated_for.material, after.calibrated_for.taken) == ("petg", DAY)
    assert after.bed == before.bed
    assert after.speed_max_mm_s.value == before.speed_max_mm_s.value
    assert after.melt_rate_mm3_s.value == before.melt_rate_mm3_s.value

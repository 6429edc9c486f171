"""Sizing: what each measure asks for and what it leaves for growth."""

from __future__ import annotations

from datetime import date

import pytest

from planner.plan import prepare
from tests.conftest import MakeJob
from tests.shapes import cuboid

TODAY = date(2026, 12, 1)


MEASURE = (
    '[job]\nname = "x"\nmaterial = "petg"\n[use]\nrecipient_age_years = 9\n[[size.measure]]\nname = "palm"\nkind = "width"\n'
    'recipient_mm = {mm}\ndevice_mm = 70.0\nbody = "{body}"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
)


def test_what_is_left_for_growth_is_ease(make_job: MakeJob) -> None:
    """58 mm with 3 mm padding and 2 mm ease at the size they ask for: 2 mm are left; at 110 % of a 62 mm device, 4.2."""
    text = MEASURE.format(mm=58.0, body="hand-breadth").replace(
        "device_mm = 70.0", "device_mm = 62.0\npadding_mm = 3.0\nease_mm = 2.0"
    )
    (measure,) = prepare(make_job(text, a=cuboid(60, 40, 8)), TODAY).sizing.measures
    bigger = text.replace("[[size.measure]]", "[size]\npercent = 110.0\n[[size.measure]]")
    (other,) = prepare(make_job(bigger, a=cuboid(60, 40, 8)), TODAY).sizing.measures

    assert measure.spare_mm == pytest.approx(2.0)
    assert other.spare_mm == pytest.approx(62.0 * 1.1 - 64.0)
    assert (measure.governs, other.governs) == (True, False)

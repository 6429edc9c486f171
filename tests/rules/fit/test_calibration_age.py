"""Measured offsets hold for the material and nozzle they were measured with, for a while, and not from a day to come."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from planner.job.profiles.printer import Calibration
from planner.rules.fit.calibration_age import calibration_findings
from tests.conftest import MakeJob
from tests.shapes import cuboid

TODAY = date(2026, 12, 1)
JOB = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'


@pytest.mark.parametrize(
    ("days_n", "material", "nozzle_mm", "told"),
    [
        (10, "petg", 0.4, ""),
        (5000, "petg", 0.4, "5000 days old"),
        (-1, "petg", 0.4, "dated 2026-12-02, after 2026-12-01"),
        (10, "pla", 0.4, "measured in pla"),
        (10, "petg", 0.6, "0.6 mm nozzle"),
    ],
)
def test_a_coupon_is_asked_for_where_the_offsets_may_not_hold(
    make_job: MakeJob, days_n: int, material: str, nozzle_mm: float, told: str
) -> None:
    """Fresh and of the same material and nozzle: no word; else a caution that names the reason."""
    job = make_job(JOB, a=cuboid(30, 20, 6))
    made = Calibration(material=material, nozzle_mm=nozzle_mm, taken=TODAY - timedelta(days=days_n))
    (found,) = calibration_findings(replace(job, printer=replace(job.printer, calibrated_for=made)), TODAY)

    assert told in found.caution
    assert bool(told) == bool(found.caution)


def test_a_printer_that_was_never_calibrated_says_nothing(make_job: MakeJob) -> None:
    """Its usual offsets are judged by their range elsewhere."""
    assert calibration_findings(make_job(JOB, a=cuboid(30, 20, 6)), TODAY) == []

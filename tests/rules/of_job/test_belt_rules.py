"""Belts are bound to every part they run on, at that part's own scale, and built with the width that is taken."""

from __future__ import annotations

from datetime import date

import pytest

from planner.finding import Verdict
from planner.plan import prepare
from planner.rules import check
from planner.supplies import built
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n'
    '[[part]]\nname = "wheel"\nmesh = "wheel.stl"\nduty = "load"\n{scale}'
    '[[hardware]]\nname = "belt"\nkind = "belt"\ndiameter_mm = 9.0\njoins = ["wheel"]\npath_mm = 200.0\n{more}'
)


@pytest.mark.parametrize(
    ("scale", "more", "rules"),
    [
        ("scale = 100.0\n", "bore_mm = 10.2\npitch_mm = 2.0\n", {}),
        ("", "bore_mm = 10.2\npitch_mm = 2.0\n", {"belt.tight": "go-with-work", "belt.pitch": "hold"}),
        ("", "bore_mm = 10.2\n", {"belt.tight": "no-go"}),
        ("", "", {"belt.missing": "hold"}),
    ],
)
def test_a_belt_is_judged_on_its_wheel(make_job: MakeJob, scale: str, more: str, rules: dict[str, str]) -> None:
    """At 90 %: a wheel that keeps its size passes; one that scales has a groove of 9.18 mm and another pitch."""
    ready = prepare(make_job(TEXT.format(scale=scale, more=more), wheel=cuboid(30, 30, 12)), date(2026, 10, 10))
    found = [f for f in check(ready.bound, 90.0).findings if f.rule.startswith("belt.") and f.verdict is not Verdict.GO]

    assert {f.rule: f.verdict.value for f in found} == rules


def test_a_loop_has_whole_teeth_and_the_width_that_goes_in(make_job: MakeJob) -> None:
    """200 mm at 90 % is 180 mm: 90 teeth of 2 mm; the groove of 9.18 mm takes a belt of 6 mm."""
    job = make_job(TEXT.format(scale="", more="bore_mm = 10.2\npitch_mm = 2.0\n"), wheel=cuboid(30, 30, 12))
    ready = prepare(job, date(2026, 10, 10))
    belt = built(ready.job, 0.9, check(ready.bound, 90.0).findings).line("belt")

    assert belt.size == "2 mm pitch, 6 mm wide"
    assert belt.length_mm == pytest.approx(180.0)
    assert "90 teeth" in belt.why

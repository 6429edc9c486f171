"""A part with a scale of its own: every settings rule judges it at that size, not at the job's."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.finding import Finding
from planner.job import read_material
from planner.rules import settings_findings
from planner.scale import DRAWN
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate

TEXT = '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'


def _told(make_job: MakeJob, scale: str) -> dict[str, Finding]:
    """Return what is said of a plate 100 x 20 x 2 mm with a bore of 4 mm, in a job at 100 %."""
    plate = bored_plate(100, 20, 2, [(50, 10, 4.0, 48)])
    job = make_job(TEXT + scale, a=plate)
    found = settings_findings(
        job, read_material("petg", Path()), surveys={"a": survey(plate)}, estimates={}, downs={}, scale=DRAWN
    )
    return {finding.rule: finding for finding in found if finding.part == "a"}


@pytest.mark.parametrize("rule", ["wall.lines", "bore.lines", "warp.span"])
def test_a_part_at_twice_its_size_measures_twice_as_much(make_job: MakeJob, rule: str) -> None:
    """The job is at 100 %, the part at 200."""
    drawn, twice = (_told(make_job, scale)[rule].measured for scale in ("", "scale = 200.0\n"))

    assert drawn is not None
    assert twice == pytest.approx(2 * drawn)


def test_uneven_scales_are_judged_at_the_end_that_matters(make_job: MakeJob) -> None:
    """Half as high: the wall is half as thick; three times as long: the span that warps is three times."""
    drawn, uneven = _told(make_job, ""), _told(make_job, "scale = [300.0, 100.0, 50.0]\n")
    ratio = {
        rule: (uneven[rule].measured or 0.0) / (drawn[rule].measured or 1.0) for rule in ("wall.lines", "warp.span")
    }

    assert ratio == pytest.approx({"wall.lines": 0.5, "warp.span": 3.0})

"""What a part is told under the same loads with other settings, or with another side down."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.finding import Verdict
from planner.job import Material, read_job
from planner.strength import Screened, judged_otherwise
from planner.strength.beam.beam_pass import weakest
from planner.strength.beam.material_as_printed import stuff_of
from tests.strength.judging.test_otherwise_printed import BAR, CASE


def test_more_contours_and_another_side_down_are_judged_under_the_same_load(heron: Path, petg: Material) -> None:
    """By hand: solid, 20 N at 72 mm on 10 by 8 is 13.5 of 40 MPa, 34 %, and on end of 25 MPa, 54 %: over half."""
    job = replace(read_job(heron), material=petg)
    stuff = stuff_of(petg, job.settings, (0.0, 0.0, -1.0))
    weak = weakest(BAR, (CASE,), stuff)
    one = Screened(part="jaw", known=True, stuff=stuff, material=petg, case=CASE, cases=(CASE,), weakest=weak)
    solid = replace(job, settings=replace(job.settings, contours_n=12))
    flat, on_end = (judged_otherwise(solid, one, BAR, 1.0, down) for down in (None, (-1.0, 0.0, 0.0)))

    assert flat is not None
    assert on_end is not None
    assert (flat.measured, on_end.measured) == pytest.approx((100 * 13.5 / 40, 100 * 13.5 / 25), rel=0.05)
    assert "13." in flat.why
    assert on_end.verdict is Verdict.HOLD
    assert judged_otherwise(job, replace(one, weakest=None), BAR, 1.0) is None

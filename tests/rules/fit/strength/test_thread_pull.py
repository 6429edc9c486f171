"""A screw that a load pulls out of plastic is judged by the shear of what lies between its threads."""

from __future__ import annotations

import math
from datetime import date

import pytest

from planner.finding import Finding, Verdict
from planner.plan import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import bored_plate

TODAY = date(2026, 12, 1)
LOW_SHEAR_MPA = 15.0
"""PETG's, profiles/materials/petg.toml."""
JOB = """[job]
name = "x"
material = "petg"
[use]
load_n = {load_n}
[[part]]
name = "a"
mesh = "a.stl"
duty = "load"
pose = [0, 0, -1]
load_at_mm = {at}
load_dir = {way}
[[hardware]]
name = "screw"
kind = "machine-screw"
diameter_mm = 4.0
bore_mm = 3.3
fit = "pilot"
washers = 0
joins = ["a"]
{more}
"""
DOWN, UP, ACROSS = "[0, 0, -1]", "[0, 0, 1]", "[1, 0, 0]"


def _found(
    make_job: MakeJob, load_n: float, way: str, more: str = "stack_mm = 12.0", at: str = "[10.0, 10.0, 0.0]"
) -> list[Finding]:
    """Return what is said of a screw in a blind pilot, 12 mm deep from above, while a load acts, below it or elsewhere."""
    job = make_job(
        JOB.format(load_n=load_n, way=way, more=more, at=at), a=bored_plate(20, 20, 20, [(10, 10, 3.3, 64)], deep=12)
    )
    return [one for one in check(prepare(job, TODAY).bound, 100.0).findings if one.rule == "strength.pullout"]


def _held_n() -> float:
    """Return by hand what an M4 of 12 mm holds: two pitches of 0.7 mm less, and a thread that the pilot leaves."""
    factor = 0.5 + 0.577 * (4.0 - 3.3) / 2.0 / 0.7  # Chapman et al. 1996, doi 10.1115/1.2796022
    return LOW_SHEAR_MPA * math.pi * 4.0 * (12.0 - 2.0 * 0.7) * factor


def test_a_screw_pulled_straight_out_is_judged_by_the_closed_form(make_job: MakeJob) -> None:
    """The part is pulled down, away from the head: S pi D L (0.5 + 0.577 depth / pitch), half of it is go."""
    (one,) = _found(make_job, 100.0, DOWN)

    assert one.measured == pytest.approx(100.0 * 100.0 / _held_n(), rel=2e-3)
    assert one.verdict is Verdict.GO
    (more,) = _found(make_job, 0.51 * _held_n(), DOWN)
    assert more.verdict is Verdict.HOLD
    assert "screening number" in more.caution


@pytest.mark.parametrize(("way", "at"), [(ACROSS, "[1.0, 10.0, 20.0]"), (UP, "[10.0, 10.0, 0.0]")])
def test_a_load_across_or_into_the_bore_pulls_nothing_out(make_job: MakeJob, way: str, at: str) -> None:
    """A force has no part along a line square to it; what presses the screw in leaves its thread alone."""
    assert _found(make_job, 100.0, way, at=at) == []


def test_a_load_across_and_below_levers_the_part_off_its_screw(make_job: MakeJob) -> None:
    """100 N, 20 mm under the face that the screw holds; it turns about the edge, 10 mm beside (statics): 200 N."""
    (one,) = _found(make_job, 100.0, ACROSS)

    assert one.measured == pytest.approx(100.0 * 200.0 / _held_n(), rel=5e-3)
    assert "200 N pull screw in b1 out of the part" in one.why
    assert "(200 N of it because a presses on its edge 10 mm from there)" in one.why


def test_without_a_length_the_pull_is_a_question(make_job: MakeJob) -> None:
    """A check that could not run is a hold."""
    (one,) = _found(make_job, 1.0, DOWN, more="")

    assert one.verdict is Verdict.HOLD
    assert one.question == "How far does screw reach into b1 of a?"

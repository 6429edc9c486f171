"""The function test: a test for everything that moves or holds, each under a name of its own."""

from __future__ import annotations

from planner.job import kind_of
from planner.output.papers.function_test import G_M_S2, trials_of
from planner.plan import Plan
from tests.output.conftest import MakePlan


def test_everything_that_moves_or_holds_is_tested(plan: Plan) -> None:
    """Gaps, turning hardware, cords, straps, load, mass: each has its test; no name stands twice."""
    trials = {trial.name: trial for trial in trials_of(plan)}
    job = plan.job

    assert len(trials) == len(trials_of(plan))
    for name in [*(c.name for c in job.cords), *(s.name for s in job.straps), "load", "mass", "small parts"]:
        assert name in trials
    assert trials["mass"].most_g == job.use.mass_limit_g
    assert job.use.load_n is not None
    assert f"{1.5 * job.use.load_n / G_M_S2:.1f} kg" in trials["load"].how  # a proof load
    of = [(f.measured, f.part) for f in plan.findings if kind_of(f.rule).gives == "strength" and f.measured]
    assert f"watch {max(of)[1]} at place 1" in trials["load"].how  # a part may be screened under two loads


def test_without_a_load_none_is_tested(make_plan_of: MakePlan) -> None:
    """A lone part: pieces and small parts only."""
    assert [trial.name for trial in trials_of(make_plan_of())] == ["pieces", "small parts"]


def test_equal_names_are_told_apart(make_plan_of: MakePlan) -> None:
    """A cord and a strap of one name get a number, so that the record can tell them apart."""
    more = (
        '[[cord]]\nname = "pull"\npart = "a"\ndiameter_mm = 1.0\nchannel_mm = 2.0\npath_mm = 100.0\n'
        '[[strap]]\nname = "pull"\npart = "a"\nwebbing_mm = 20.0\nslot_mm = 22.0\naround_mm = 190.0\n'
    )
    names = [trial.name for trial in trials_of(make_plan_of(more))]

    assert {"pull", "pull (2)"} <= set(names)

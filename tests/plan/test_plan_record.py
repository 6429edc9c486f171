"""The plan's record: its facts are those of its stage, and another size builds another device."""

from __future__ import annotations

from dataclasses import replace

from planner.finding import Verdict
from planner.plan import Plan


def test_the_device_built_at_the_plans_own_size_is_the_plans(heron_plan: Plan) -> None:
    """The same bag and cuts; at 80 % some of it is another."""
    same, other = heron_plan.built_at(heron_plan.scale_percent), heron_plan.built_at(80.0)

    assert same.hardware == heron_plan.hardware
    assert same.cuts == heron_plan.cuts
    assert (other.hardware, other.cuts) != (same.hardware, same.cuts)


def test_runs_are_those_of_the_clocks_and_none_without_a_calendar(heron_plan: Plan) -> None:
    """One run a plate; without clocks none, and the plates stay."""
    bare = replace(heron_plan, stage=replace(heron_plan.stage, clocks=None))

    assert sorted(run.plate for run in heron_plan.runs) == [plate.number for plate in heron_plan.plates]
    assert (bare.runs, bare.plates) == ((), heron_plan.plates)


def test_work_is_counted_over_all_findings_of_the_plan(heron_plan: Plan) -> None:
    """One finding more that goes with work is one more; one that goes is none."""
    more = [replace(heron_plan.findings[0], verdict=verdict) for verdict in (Verdict.GO_WITH_WORK, Verdict.GO)]

    assert replace(heron_plan, findings=(*heron_plan.findings, *more)).works_n == heron_plan.works_n + 1

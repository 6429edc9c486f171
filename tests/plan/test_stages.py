"""Stages: what is printed adds up, what follows is made once, and the coupon's evening is told in one line."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

from planner.finding import Verdict
from planner.layers.layer_records import ZERO
from planner.plan import Plan, Prepared
from planner.plan.stages import CouponFirst, Printed

COUPON = CouponFirst(
    why="bores",
    printer="bench-220",
    material="petg",
    duration_s=3600.0,
    hands_min=20,
    mass_g=ZERO,
    day=date(2026, 12, 1),
    start=datetime(2026, 12, 1, 18, 0),
    last_start=datetime(2026, 12, 1, 20, 30),
    end=datetime(2026, 12, 1, 19, 0),
    measured=datetime(2026, 12, 1, 19, 20),
)


def test_grams_of_one_colour_add_and_plates_follow_each_other(heron_plan: Plan) -> None:
    """Green is in both, black in one: 30 and 5 g, with the plates of both in order."""
    one, two = heron_plan.plates[:2]
    both = Printed(plates=(one,), used_g={"green": 10.0}) + Printed(plates=(two,), used_g={"black": 5.0, "green": 20.0})

    assert both == Printed(plates=(one, two), used_g={"green": 30.0, "black": 5.0})
    assert Printed() + both == both


def test_what_follows_from_a_stage_is_made_once_and_anew_for_a_changed_one(heron_ready: Prepared) -> None:
    """Two questions by the same name make it once; a copy of the stage makes its own."""
    made: list[int] = []

    def count() -> int:
        made.append(1)
        return len(made)

    stage = replace(heron_ready)
    assert [stage.once("test of stages", count) for _ in range(2)] == [1, 1]
    assert replace(stage, today=date(2027, 1, 1)).once("test of stages", count) == 2


def test_the_coupon_is_told_with_its_last_start_only_on_the_day_that_it_limits() -> None:
    """Before 20:30 that evening; a last start on a later day limits nothing; without a time nothing is said."""
    assert ", before 20:30; measure it before any plate" in COUPON.tonight
    assert COUPON.tonight.startswith("the coupon on bench-220, ")
    assert "before 0" not in replace(COUPON, last_start=datetime(2026, 12, 2, 7, 0)).tonight
    assert replace(COUPON, start=None).tonight == ""


def test_openings_that_need_work_are_counted_and_nothing_else(heron_plan: Plan) -> None:
    """As many as findings of fit say go with work; without these, none."""
    sized = heron_plan.stage.sized
    worked = [f for f in sized.fit.findings if f.verdict is Verdict.GO_WITH_WORK]
    rest = tuple(f for f in sized.fit.findings if f.verdict is not Verdict.GO_WITH_WORK)

    assert sized.works_n == len(worked) > 0
    assert replace(sized, fit=replace(sized.fit, findings=rest)).works_n == 0
    assert sized.factor == sized.percent / 100.0


def test_no_rule_is_lost_where_a_job_is_bound_for_another_printer(heron_ready: Prepared) -> None:
    """What a line cannot lay, and parts between faces, are judged there as well: every rule of the job stands."""
    told = {(one.rule, one.part, one.feature) for one in heron_ready.bound.rules}
    downs = {name: pose.down for name, pose in heron_ready.poses.items()}
    there = {(one.rule, one.part, one.feature) for one in heron_ready.rules_for(heron_ready.job, downs)}

    assert there == told
    assert "wall.unlaid" in {rule for rule, _, _ in there}

"""Stages: what is printed adds up, what follows is made once, and the coupon's evening is told in one line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime

import pytest

from planner.finding import Finding, Verdict
from planner.job import kind_of
from planner.layers.layer_records import ZERO
from planner.plan import Plan, Prepared, stages
from planner.plan.stages import CouponFirst, Printed
from planner.rules import Rule
from planner.sourced import stated

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


def test_bores_bear_the_same_on_thinner_lines_and_no_part_is_cut_to_tell(
    heron_ready: Prepared, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Asked without cuts, rules of what bores take are those of the job itself; under another load there are none.

    On thinner lines parts are as strong at best, so that rules of strength stand; on wider ones none is known.
    """
    monkeypatch.setattr(stages, "screened", lambda *_: pytest.fail("a part is cut"))
    job, downs = heron_ready.job, heron_ready.downs
    thinner = replace(job.settings, line_width_mm=stated(0.42))
    found = heron_ready.rules_for(replace(job, settings=thinner), downs, cut=False)

    assert _of_bores(found) == _of_bores(heron_ready.bound.rules) != []
    assert _of_beams(found) == _of_beams(heron_ready.bound.rules) != []
    wider = replace(job.settings, line_width_mm=stated(0.5))
    assert _of_beams(heron_ready.rules_for(replace(job, settings=wider), downs, cut=False)) == []
    loaded_more = replace(job, use=replace(job.use, load_n=100.0))
    assert _of_bores(heron_ready.rules_for(loaded_more, downs, cut=False)) == []


def _of_beams(rules: Sequence[Rule]) -> list[Rule]:
    """Return the rules of the weakest place of loaded parts."""
    return [rule for rule in rules if rule.rule == "strength.beam"]


def _of_bores(rules: Sequence[Rule]) -> list[Finding]:
    """Return what the rules of what bores take say at drawn size."""
    return [rule.at(1.0) for rule in rules if kind_of(rule.rule).of_load and rule.rule != "strength.beam"]

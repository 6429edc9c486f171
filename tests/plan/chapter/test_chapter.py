"""Several jobs at once: one calendar for shared printers, one coupon, and every job's own dates in its own plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, datetime
from itertools import combinations
from typing import Any

import pytest

from planner.finding import Verdict
from planner.job import Attended, Spool
from planner.output import chapter_json, plan_json
from planner.plan import Plan, on_one_calendar
from tests.conftest import MakeJob
from tests.plan.chapter.plates_and_posts import JOB, plan_of
from tests.plan.jobs import planned, under
from tests.shapes import bored_plate, cuboid


def test_alone_they_would_meet_on_the_printer_and_together_they_do_not(plans: Mapping[str, Plan]) -> None:
    """Each alone starts at the same minute; in one calendar no two plates are on a printer at once."""
    together = on_one_calendar(plans)
    alone = [run for plan in plans.values() for run in plan.runs]
    runs = [run for plan in together.plans.values() for run in plan.runs]

    assert not together.note
    assert len({run.start for run in alone}) < len(alone) == len(runs)
    for one, other in combinations(runs, 2):
        assert one.start is not None
        assert one.end is not None
        assert other.start is not None
        assert other.end is not None
        assert one.printer != other.printer or one.end < other.start or other.end < one.start
        assert one.start.hour * 60 + one.start.minute >= 17 * 60 + 30
        assert one.end.hour * 60 + one.end.minute <= 22 * 60 + 30


def test_the_job_that_is_due_first_is_printed_first_and_its_papers_say_so(plans: Mapping[str, Plan]) -> None:
    """Every plan's own dates are those of the common calendar, clocks and hands' work included."""
    together = on_one_calendar(plans)
    told: Any = chapter_json(together.plans, together.note)
    ready = {name: plan.clocks.ready or datetime.max for name, plan in together.plans.items() if plan.clocks}  # noqa: DTZ901

    assert ready["c"] < ready["b"] < ready["a"]
    for name, plan in together.plans.items():
        own: Any = plan_json(plan)["schedule"]
        common = [{k: row[k] for k in ("plate", "start", "end")} for row in told["schedule"] if row["folder"] == name]
        assert [{k: row[k] for k in ("plate", "start", "end")} for row in own] == common
        assert plan.clocks is not None
        assert "2 other jobs" in " ".join(plan.clocks.table.notes)


def test_one_coupon_serves_all(plans: Mapping[str, Plan]) -> None:
    """One printer and material are measured once, before any plate of any job."""
    together = on_one_calendar(plans)
    coupons = {plan.coupon for plan in together.plans.values()}
    told: Any = chapter_json(together.plans)

    assert len(coupons) == len(told["coupons"]) == 1
    first = coupons.pop()
    assert first is not None
    assert first.measured is not None
    assert all(run.start >= first.measured for plan in together.plans.values() for run in plan.runs if run.start)
    assert together.coupons == (first,)
    assert told["coupons"][0]["measured"] == first.measured.isoformat()


def test_coupons_of_all_printers_in_use_are_told(plans: Mapping[str, Plan]) -> None:
    """Two printers that nobody measured: each has a row of its own, named for itself, if and only if plates are on it."""
    two = {}
    for name, plan in plans.items():
        job = plan.stage.sized.ready.job
        two[name] = planned(
            replace(under(job, coupon="always"), more_printers=(replace(job.printer, name="second"),), hardware=())
        )
    together = on_one_calendar(two)
    told: Any = chapter_json(together.plans, chapter=together)
    used = {run.printer for plan in together.plans.values() for run in plan.runs}
    measured = {row["printer"]: datetime.fromisoformat(row["measured"]) for row in told["coupons"]}

    assert set(measured) == used
    assert len(used) == 2
    assert all(other not in row["why"] for row in told["coupons"] for other in used - {row["printer"]})
    runs = [run for plan in together.plans.values() for run in plan.runs if run.start]
    assert all(run.start >= measured[run.printer] for run in runs if run.start)


def test_a_job_without_a_calendar_stays_as_it_is(plans: Mapping[str, Plan]) -> None:
    """It has plates and no dates, alone and beside others."""
    undated = planned(replace(plans["a"].job, calendar=None))
    together = on_one_calendar({**plans, "d": undated})

    assert together.plans["d"] is undated
    assert list(together.plans) == ["a", "b", "c", "d"]


def test_somebody_is_beside_a_plate_that_a_spool_ends_in(make_job: MakeJob) -> None:
    """Two jobs whose plates run on overnight: the one whose spool ends in its plate is run in an evening, with no hold."""
    text = JOB.replace("count = 3", "count = 2")
    plans = {}
    for name, left in (("a", ()), ("b", (0.7, 0.7))):
        job = make_job(text, plate=bored_plate(40, 30, 6, [(20.0, 15.0, 5.45, 64)]), block=cuboid(60, 60, 20))
        job = under(job, unattended=True, coupon="never", deadline=date(2026, 12, 9))
        plan = planned(job)
        if left:
            mass = plan.totals.mass_g
            assert mass is not None
            spools = tuple(Spool(material="petg", colour="any", left_g=share * mass.value) for share in left)
            plan = planned(replace(job, spools=spools))
        plans[name] = plan
    together = on_one_calendar(plans).plans["b"]
    assert together.clocks is not None
    feed = together.clocks.feeds[0]
    run = together.runs[0]
    assert run.start is not None
    assert run.end is not None

    assert len(feed.reels) == 2
    assert not feed.unattended
    assert run.start.date() == run.end.date()
    assert run.end.hour * 60 + run.end.minute <= 22 * 60 + 30
    assert any("a spool ends in it" in note for note in together.clocks.table.notes)
    assert not [f for f in together.findings if f.rule == "spool.end" and f.verdict is Verdict.HOLD]


def test_late_jobs_of_a_chapter_have_ways_out_that_are_kept(make_job: MakeJob) -> None:
    """Three jobs due on one day, one printer: each late one gets ways, and each way, put into all jobs, keeps its word."""
    due = {"deadline": date(2026, 12, 2), "coupon": "never", "split": "never"}
    plans = dict.fromkeys("abc", plan_of(make_job, **due))
    together = on_one_calendar(plans)
    late = {
        name: plan.clocks
        for name, plan in together.plans.items()
        if plan.clocks is not None and any(f.rule == "plan.late" for f in plan.findings)
    }
    weekend = Attended(days=(5, 6), from_min=8 * 60, to_min=23 * 60)
    evenings = Attended(days=(0, 1, 2, 3, 4), from_min=17 * 60 + 30, to_min=22 * 60 + 30)
    kept: dict[str, dict[str, Any]] = {
        "unattended": {"unattended": True},
        "longer": {"attended": (replace(evenings, from_min=17 * 60, to_min=24 * 60),)},
        "Saturdays": {"attended": (evenings, weekend)},
        "looked at": {"first_article": False},
    }

    assert late
    for name, clocks in late.items():
        assert clocks.ways[-1].ready == clocks.ready
        assert any("one more printer" in way.what for way in clocks.ways)
        for way in clocks.ways:
            change = next((keys for words, keys in kept.items() if words in way.what), None)
            if change is not None:
                again = on_one_calendar(dict.fromkeys("abc", plan_of(make_job, **{**due, **change}))).plans[name]
                assert again.clocks is not None
                assert again.clocks.ready is not None
                assert way.ready is not None
                assert again.clocks.ready <= way.ready, way.what
                assert "all jobs together" in way.costs
    for name, plan in together.plans.items():
        assert plan.clocks is not None
        assert name in late or not plan.clocks.ways


@pytest.mark.parametrize("cautious", ["a", "b"])
def test_each_job_keeps_its_own_wish_for_a_first_article(make_job: MakeJob, cautious: str) -> None:
    """On two printers the job that is due first waits for its first plate where it wants that, and else does not."""
    plans = {}
    for name, due, n in (("a", 20, 1), ("b", 4, 10)):
        blocks = JOB.replace("count = 3", f"count = {n}")
        job = make_job(blocks, plate=bored_plate(40, 30, 6, [(20.0, 15.0, 5.45, 64)]), block=cuboid(100, 90, 2))
        job = replace(job, more_printers=(replace(job.printer, name="second"),), hardware=())
        wish = {"first_article": name == cautious, "deadline": date(2026, 12, due), "attended": ()}
        job = replace(under(job, coupon="never", people_n=2, **wish), parts=job.parts[1:])
        plans[name] = planned(job)
    together = on_one_calendar(plans)
    assert not together.note
    runs = together.plans["b"].runs
    spans = sorted((run.start, run.end) for run in runs if run.start is not None and run.end is not None)
    assert len(spans) == len(runs) > 2
    assert all(start >= spans[0][1] for start, _ in spans[1:]) == (cautious == "b")


def test_each_job_begins_at_its_own_start(make_job: MakeJob) -> None:
    """One that may begin a week later holds nobody up: the first runs in its own week, the second not before its own."""
    begins = {"a": datetime(2026, 12, 1, 17, 30), "b": datetime(2026, 12, 8, 17, 30)}
    plans = {name: plan_of(make_job, coupon="never", start=start) for name, start in begins.items()}
    together = on_one_calendar(plans).plans

    assert all(run.end is not None and run.end < begins["b"] for run in together["a"].runs)
    assert all(run.start is not None and run.start >= begins["b"] for run in together["b"].runs)


def test_a_coupon_holds_nobody_up_who_begins_sooner(make_job: MakeJob) -> None:
    """One coupon for two jobs of which one begins a week later: printed at once, and each job begins at its own start."""
    begins = {"a": datetime(2026, 12, 1, 17, 30), "b": datetime(2026, 12, 8, 17, 30)}
    plans = {name: plan_of(make_job, coupon="always", start=start) for name, start in begins.items()}
    together = on_one_calendar(plans).plans
    coupons = {plan.coupon for plan in together.values()}
    first = coupons.pop()

    assert not coupons
    assert first is not None
    assert first.start == begins["a"]
    assert first.measured is not None
    assert all(run.end is not None and run.end < begins["b"] for run in together["a"].runs)
    assert all(run.start is not None and run.start >= first.measured for run in together["a"].runs)
    assert all(run.start is not None and run.start >= begins["b"] for run in together["b"].runs)


def test_a_job_without_a_coupon_waits_for_the_printer_that_prints_one(make_job: MakeJob) -> None:
    """Two jobs on one printer, a coupon for one of them: no plate of either runs before the printer is measured."""
    wishes = {"a": "always", "b": "never"}
    together = on_one_calendar({n: plan_of(make_job, coupon=wish) for n, wish in wishes.items()}).plans
    first = together["a"].coupon
    assert first is not None
    assert first.measured is not None

    assert together["b"].coupon is None
    for plan in together.values():
        assert all(run.start is not None and run.start >= first.measured for run in plan.runs)


def test_a_late_job_holds_the_chapter(make_job: MakeJob) -> None:
    """Three jobs due on one day on one printer: those that are late are held, the others are not, and the ledger is."""
    due = {"deadline": date(2026, 12, 2), "coupon": "never", "split": "never"}
    together = on_one_calendar(dict.fromkeys("abc", plan_of(make_job, **due)))
    late = {name for name, plan in together.plans.items() if any(f.rule == "plan.late" for f in plan.findings)}
    told: Any = chapter_json(together.plans, together.note)

    assert 0 < len(late) < 3
    assert {name for name, plan in together.plans.items() if plan.verdict is Verdict.HOLD} == late
    assert told["verdict"] == "hold"

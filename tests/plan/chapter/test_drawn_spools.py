"""Spools that serve several jobs: none of their grams twice, never on two printers at once."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from planner.job import Spool
from planner.plan import on_one_calendar
from planner.plan.chapter.drawn_spools import drawn_by
from planner.plan.dates.plate_dates import TimedPlates
from tests.conftest import MakeJob
from tests.plan.chapter.plates_and_posts import plan_of
from tests.plan.jobs import planned


def test_one_spool_of_two_jobs_is_drawn_once(make_job: MakeJob) -> None:
    """Two jobs know S-1: what both draw is the grams of both with the reserve; what does not fit it is short."""
    plan = plan_of(make_job)
    grams = sum(plate.mass_g.value for plate in plan.plates if plate.mass_g) * plan.job.limits.spool_reserve.value
    spool = Spool(material="petg", colour="any", left_g=1.5 * grams, id="S-1")
    job = replace(plan.job, spools=(spool,))
    both = on_one_calendar({"a": planned(job), "b": planned(job)}).plans
    feeds = [feed for each in both.values() if each.clocks for feed in each.clocks.feeds]
    times = [(p, TimedPlates(plates=p.plates, batches=p.batches, clocks=p.clocks)) for p in both.values()]
    drawn = drawn_by(times, {})

    assert sum(feed.short_g for feed in feeds) > 0
    assert set(drawn) == {"S-1"}
    spans = sorted(drawn["S-1"].spans)
    assert all(one[1] <= other[0] for one, other in pairwise(spans))


def test_a_spool_that_ends_within_a_plate_gives_what_was_left_on_it(make_job: MakeJob) -> None:
    """By hand: 1.5 and 1 times a job's grams on two spools, two jobs on one printer: never more than a spool had, all of it drawn."""
    plan = plan_of(make_job)
    grams = sum(plate.mass_g.value for plate in plan.plates if plate.mass_g) * plan.job.limits.spool_reserve.value
    left_g = {"S-1": 1.5 * grams, "S-2": 1.0 * grams}
    spools = tuple(Spool(material="petg", colour="any", left_g=left, id=name) for name, left in left_g.items())
    job = replace(plan.job, spools=spools)
    both = on_one_calendar({"a": planned(job), "b": planned(job)}).plans
    times = [(p, TimedPlates(plates=p.plates, batches=p.batches, clocks=p.clocks)) for p in both.values()]
    drawn = drawn_by(times, {})

    assert all(each.grams <= left_g[name] + 1e-9 for name, each in drawn.items())
    short_g = sum(feed.short_g for each in both.values() if each.clocks for feed in each.clocks.feeds)
    assert sum(each.grams for each in drawn.values()) == pytest.approx(2.0 * grams - short_g)

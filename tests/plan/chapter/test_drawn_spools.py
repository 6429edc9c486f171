"""Spools that serve several jobs: none of their grams twice, never on two printers at once."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

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
    drawn = {}
    for each in both.values():
        drawn = drawn_by(each, TimedPlates(plates=each.plates, batches=each.batches, clocks=each.clocks), drawn)

    assert sum(feed.short_g for feed in feeds) > 0
    assert set(drawn) == {"S-1"}
    spans = sorted(drawn["S-1"].spans)
    assert all(one[1] <= other[0] for one, other in pairwise(spans))

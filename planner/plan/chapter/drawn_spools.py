"""Drawn: what the plates of a job take from spools that serve other jobs too, and when."""

from __future__ import annotations

from collections.abc import Mapping

from planner.plan.dates.plate_dates import TimedPlates
from planner.plan.dates.standing import Drawn
from planner.plan.plan_record import Plan


def drawn_by(plan: Plan, made: TimedPlates, before: Mapping[str, Drawn]) -> dict[str, Drawn]:
    """Return what is drawn from spools with an id, by id, with what a job's plates draw, its reserve included."""
    found = dict(before)
    if made.clocks is None:
        return found
    table, reserve = made.clocks.table, plan.job.limits.spool_reserve.value
    grams = {plate.number: reserve * plate.mass_g.value for plate in made.plates if plate.mass_g is not None}
    runs = {run.plate: run for run in table.placed}
    for feed in made.clocks.feeds:
        run, rest = runs[feed.plate], grams.get(feed.plate, 0.0)
        span = table.at(run.start_min), table.at(run.end_min)
        for reel in feed.reels:
            taken = min(rest, reel.left_g)
            rest -= taken
            if reel.job is None:
                found[reel.name] = found.get(reel.name, Drawn()) + Drawn(grams=taken, spans=(span,))
    return found

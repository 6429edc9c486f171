"""Drawn: what the plates of jobs on one calendar take from spools that serve other jobs too, and when."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.plan.dates.as_it_stands import Drawn, Moments
from planner.plan.dates.plate_dates import TimedPlates
from planner.plan.plan_record import Plan
from planner.schedule import Reel


def drawn_by(made: Sequence[tuple[Plan, TimedPlates]], before: Mapping[str, Drawn]) -> dict[str, Drawn]:
    """Return what is drawn from spools with an id, by id, with what plates of one calendar draw, the reserve included.

    Plates draw in the order of their starts, whosever they are: where a spool ends within a plate, it gives what the
    plates before left on it.
    """
    feeds = [each for plan, one in made for each in _feeds(plan, one)]
    found, used_g = dict(before), dict[tuple[int | None, str], float]()
    for reels, grams, span in sorted(feeds, key=lambda feed: feed[2]):
        rest_g = grams
        for reel in reels:
            taken_g = min(rest_g, max(0.0, reel.left_g - used_g.get(reel.key, 0.0)))
            used_g[reel.key] = used_g.get(reel.key, 0.0) + taken_g
            rest_g -= taken_g
            if reel.job is None:
                found[reel.name] = found.get(reel.name, Drawn()) + Drawn(grams=taken_g, spans=(span,))
    return found


def _feeds(plan: Plan, made: TimedPlates) -> list[tuple[tuple[Reel, ...], float, Moments]]:
    """Return the spools of each plate that has a time, the grams it takes with its reserve, and when it runs."""
    if made.clocks is None:
        return []
    table, reserve = made.clocks.table, plan.job.limits.spool_reserve.value
    grams = {plate.number: reserve * plate.mass_g.value for plate in made.plates if plate.mass_g is not None}
    runs = {run.plate: run for run in table.placed}
    return [
        (feed.reels, grams.get(feed.plate, 0.0), (table.at(run.start_min), table.at(run.end_min)))
        for feed in made.clocks.feeds
        for run in (runs[feed.plate],)
    ]

"""Fed plates: a schedule made again with fewer plates of a colour side by side, while that leaves fewer grams short."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TypeVar

from planner.job import Spool
from planner.plan.dates.spool_ends import JobToFeed, feeds_of
from planner.plan.dates.spools_at_once import short_g, with_fewer_at_once
from planner.schedule import Feed, Feeding, JobLoads, MoreSpool, Planned

T = TypeVar("T")
Feeds = list[tuple[Feed, ...]]
"""By job what feeds its plates."""


def fewest_short(
    asking: Sequence[JobToFeed],
    loads: tuple[JobLoads, ...],
    made: Callable[[tuple[JobLoads, ...]], T],
    fed_by: Callable[[T], tuple[Feeds, int]],
) -> tuple[tuple[JobLoads, ...], T, Feeds]:
    """Return the loads, the schedule made of them and its feeds that leave the fewest grams short.

    ``fed_by`` gives a schedule's feeds, and how many plates have no time in it: more of these are no help.
    """
    best, fewer = made(loads), loads
    feeds, unmet_n = fed_by(best)
    while fewer := with_fewer_at_once(asking, fewer, feeds):
        other = made(fewer)
        again, then_n = fed_by(other)
        if short_g(again) < short_g(feeds) and then_n <= unmet_n:
            loads, best, feeds, unmet_n = fewer, other, again, then_n
    return loads, best, feeds


def feeding_of(asking: Sequence[JobToFeed]) -> Feeding:
    """Return what plans jobs so that as much as can be is fed, with spools that are bought beside their own."""

    def planned(
        loads: tuple[JobLoads, ...], more: tuple[MoreSpool, ...], made: Callable[[tuple[JobLoads, ...]], Planned]
    ) -> tuple[Planned, frozenset[int]]:
        mine = [_with_spools(each, more) for each in asking]

        def fed_by(plan: Planned) -> tuple[Feeds, int]:
            runs = [[run for run in plan.placed if run.job == k] for k in range(len(mine))]
            unmet_n = sum(len(job.loads) for job in plan.jobs) - len(plan.placed)
            return feeds_of(mine, runs, plan.problem.wall, plan.problem.shop), unmet_n

        _, best, feeds = fewest_short(mine, loads, made, fed_by)
        return best, frozenset(k for k, own in enumerate(feeds) if any(feed.short_g for feed in own))

    return planned


def _with_spools(asking: JobToFeed, more: tuple[MoreSpool, ...]) -> JobToFeed:
    """Return a job's plates with more spools of its material beside its own."""
    inputs, plates, drawn, last = asking
    material = inputs.material.name
    new = tuple(
        Spool(material=material, colour=reel.removeprefix(f"{material} "), left_g=grams, id=name)
        for name, reel, grams in more
        if reel.startswith(f"{material} ")
    )
    return replace(inputs, job=replace(inputs.job, spools=(*inputs.job.spools, *new))), plates, drawn, last

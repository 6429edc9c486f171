"""What one more of something buys by the rules that the plan is made anew by: moves have a price, spools feed one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path

from planner.job import Attended, Calendar, read_printer
from planner.schedule import JobLoads, MoreSpool, Planned, PlateLoad, Situation, limits
from planner.schedule.ways_out.once_bought import as_planned, late_once_bought

START = datetime(2026, 11, 30, 8)
ALWAYS = (Attended(days=tuple(range(7)), from_min=0, to_min=1440),)
BENCH = read_printer("bench-220", Path())


def _stood(plates_n: int, moves_a_day: int) -> tuple[JobLoads, ...]:
    """Return a device of plates of 10 h, planned one after the other on one printer, and due on the first day."""
    calendar = Calendar(
        start=START, deadline=START.date(), attended=ALWAYS, unattended=True, first_article=False, people_n=2
    )
    loads = tuple(
        PlateLoad(plate=k + 1, takes_s={BENCH.name: 36000.0}, stood=(BENCH.name, START + timedelta(hours=11 * k)))
        for k in range(plates_n)
    )
    return (JobLoads(loads=loads, calendar=calendar, printers=(BENCH,), moves_a_day=moves_a_day),)


def _printer_buy(situation: Situation) -> int:
    """Return the days that one more printer is said to save."""
    found = limits(situation)
    assert found is not None
    return next(buy.days for buy in found.buys if "printer like" in buy.what)


def test_days_are_saved_only_where_they_are_worth_the_plates_that_move() -> None:
    """By hand: four plates of 10 h end on the second day on one printer, and on the first night on two; two plates move.

    At ten plates a day the day is worth it, at one move a day two moves cost more than it saves: nothing is promised.
    """
    assert _printer_buy(Situation(jobs=_stood(4, moves_a_day=10))) == 1
    assert _printer_buy(Situation(jobs=_stood(4, moves_a_day=1))) == 0
    assert not as_planned(_stood(4, moves_a_day=1)).moved_days


def test_what_the_spools_cannot_feed_is_not_bought_with_a_printer() -> None:
    """A feeding that lets no two plates run at once, as one spool does, leaves all as late as it was."""

    def alone(
        jobs: tuple[JobLoads, ...], _: tuple[MoreSpool, ...], made: Callable[[tuple[JobLoads, ...]], Planned]
    ) -> tuple[Planned, frozenset[int]]:
        one = {"S-1": frozenset({"petg red"})}
        fed = tuple(replace(j, reels=one, loads=tuple(replace(x, reel="petg red") for x in j.loads)) for j in jobs)
        return made(fed), frozenset()

    jobs = _stood(4, moves_a_day=10)
    assert _printer_buy(Situation(jobs=jobs, feeding=alone)) == 0


def test_a_job_that_no_spool_feeds_has_no_date() -> None:
    """What a feeding leaves short lacks a date, however many grams there are in all."""
    jobs = (replace(_stood(1, moves_a_day=10)[0], loads=(PlateLoad(plate=1, takes_s={BENCH.name: 3600.0}),)),)
    dated = replace(jobs[0], calendar=replace(jobs[0].calendar, deadline=date(2026, 12, 24)))
    known = Situation(jobs=(dated,), feeding=lambda j, _, made: (made(j), frozenset({0})))

    assert late_once_bought(known, []) == (1, 0)
    assert late_once_bought(replace(known, feeding=None), []) == (0, 0)

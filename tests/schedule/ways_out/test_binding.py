"""What limits a chapter: cases in which the right answer is known beforehand, and what one more would buy."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

import pytest

from planner.job import Attended, Calendar, read_printer
from planner.schedule import Helper, JobLoads, PlateLoad, Situation, Step, limits

START = datetime(2026, 11, 30, 8)
WEEK = tuple(range(7))
DAYS = (Attended(days=WEEK, from_min=8 * 60, to_min=20 * 60),)
BUILD, TEST = Step(name="assemble", takes_min=60), Step(name="test", takes_min=20, after=("assemble",), role="tester")


def _jobs(
    n: int, hours: float, due: date, printers: int = 1, plates: int = 1, reel: str = "", only: str = "", spools: int = 0
) -> tuple[JobLoads, ...]:
    """Return devices of some plates of so many hours, due on a day, on so many printers (or one bed only)."""
    shop = tuple(read_printer(name, Path()) for name in ("bench-220", "cabinet-250", "large-350")[:printers])
    takes = {printer.name: 3600 * hours for printer in shop if only in ("", printer.name)}
    calendar = Calendar(start=START, deadline=due, attended=DAYS, unattended=True, first_article=False)
    return tuple(
        JobLoads(
            loads=tuple(PlateLoad(plate=k, takes_s=takes, reel=reel) for k in range(1, plates + 1)),
            calendar=calendar,
            printers=shop,
            steps=(BUILD,),
            reels={f"S-{s}": frozenset({reel}) for s in range(spools)},
        )
        for _ in range(n)
    )


SOON, LATER = date(2026, 12, 2), date(2026, 12, 20)
MANY = tuple(Helper(code=f"M-{n}", roles=("maker", "tester")) for n in range(9))
SIX_H = tuple(Helper(code=f"M-{n}", roles=("maker",), week_h=4.0) for n in (1, 2))


def _built(jobs: tuple[JobLoads, ...], *steps: Step) -> tuple[JobLoads, ...]:
    """Return jobs with other work by hand."""
    return tuple(
        JobLoads(
            loads=job.loads, calendar=job.calendar, printers=job.printers, steps=steps, printers_free=job.printers_free
        )
        for job in jobs
    )


CASES = {
    # six plates of 10 h are 60 h on one printer; until Wednesday night there are two and a half days
    "printer hours": Situation(jobs=_jobs(12, 10, SOON), helpers=MANY),
    # 6 x 6 h of assembly, 2 x 4 h a week for three weeks
    "hands": Situation(jobs=_built(_jobs(6, 1, LATER, 3), Step(name="assemble", takes_min=360)), helpers=SIX_H),
    # one maker who may test nothing of what he built, and no other tester
    "hands: nobody tests": Situation(
        jobs=_built(_jobs(2, 1, LATER, 3), BUILD, TEST), helpers=(Helper(code="M-1", roles=("maker", "tester")),)
    ),
    # three printers, one spool: one plate at a time
    "one colour: petg green": Situation(
        jobs=_jobs(9, 8, SOON, 3, reel="petg green", spools=1),
        helpers=MANY,
        grams=tuple({"petg green": 50.0} for _ in range(9)),
        left_g={"petg green": 900.0},
    ),
    # enough spools, too few grams
    "one colour: petg red": Situation(
        jobs=_jobs(4, 1, LATER, 3, reel="petg red", spools=4),
        helpers=MANY,
        grams=tuple({"petg red": 100.0} for _ in range(4)),
        left_g={"petg red": 250.0},
    ),
    # three printers, but the plates lie on the large bed alone
    "one bed: large-350": Situation(jobs=_jobs(8, 10, SOON, 3, only="large-350"), helpers=MANY),
    # four devices of 30, and 100 there
    "money": Situation(jobs=_jobs(4, 1, LATER, 3), helpers=MANY, costs=(30.0,) * 4, budget=100.0),
    # one device of 40 h that is due the same day
    "time": Situation(jobs=_jobs(1, 40, date(2026, 11, 30)), helpers=MANY),
}


@pytest.mark.parametrize("case", CASES)
def test_the_binding_constraint_is_named(case: str) -> None:
    """In each case everything else is there in plenty."""
    found = limits(CASES[case])

    assert found is not None
    assert found.what == case.partition(": nobody")[0]


def test_nothing_limits_a_chapter_that_is_in_time() -> None:
    """Three plates of one hour and three weeks."""
    assert limits(Situation(jobs=_jobs(3, 1, LATER), helpers=MANY)) is None


def test_what_is_short_is_told_with_what_would_help() -> None:
    """By hand: 12 h of a maker are short; one more helper of 4 h a week brings 12 h in three weeks: all are in time."""
    found = limits(CASES["hands"])

    assert found is not None
    assert found.short == "12 h of a maker short by Sun 20 Dec: 36 h of work, 24 h given"
    more = next(buy for buy in found.buys if buy.what == "one more helper of 4 h a week")
    none = next(buy for buy in found.buys if "printer like" in buy.what)
    assert (more.days > 0, none.days) == (True, 0)


def test_nobody_wins_what_the_plan_alone_lacks() -> None:
    """A plan in which all twelve have no date, none is late: dispatched, none is without one, so no purchase wins either."""
    found = limits(replace(CASES["printer hours"], planned_days=(None,) * 12))

    assert found is not None
    assert {(buy.days, buy.devices) for buy in found.buys} == {(0, 0)}


def test_what_one_more_buys_counts_from_the_plan_that_there_is() -> None:
    """A plan that is a day late in one of twelve devices has one day to save: nothing saves more, whatever is dispatched."""
    case = CASES["printer hours"]
    bare, planned = limits(case), limits(replace(case, planned_days=(1, *(0,) * 11)))

    assert bare is not None
    assert planned is not None
    assert max(buy.days for buy in bare.buys) > 1
    assert {buy.days for buy in planned.buys} <= {0, 1}
    assert all(buy.devices == 0 for buy in planned.buys)


def test_grams_that_are_short_leave_devices_without_a_date() -> None:
    """By hand: 250 g feed two devices of 100 g; 150 g are short, and one more spool gives the other two a date."""
    found = limits(CASES["one colour: petg red"])

    assert found is not None
    assert found.short == "150 g short"
    assert {buy.what: buy.devices for buy in found.buys}["one more spool of petg red"] == 2

"""A situation planned in short: who has no date, and how late the others are."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path

from planner.job import Attended, Calendar, read_printer
from planner.schedule import Helper, JobLoads, PlateLoad, Situation, Step
from planner.schedule.ways_out.job_changes import Change
from planner.schedule.ways_out.ways_out import ways_of
from planner.schedule.ways_out.weighed import Planned, of_calendar, weighed

ALWAYS = (Attended(days=tuple(range(7)), from_min=0, to_min=1440),)
BENCH = read_printer("bench-220", Path())


def _device(due: date) -> JobLoads:
    """Return a device of one plate of 20 h, from Monday at eight o'clock, due on a day."""
    calendar = Calendar(
        start=datetime(2026, 11, 30, 8), deadline=due, attended=ALWAYS, unattended=True, first_article=False
    )
    return JobLoads(loads=(PlateLoad(plate=1, takes_s={BENCH.name: 72000.0}),), calendar=calendar, printers=(BENCH,))


TWO = (_device(date(2026, 11, 30)), _device(date(2026, 12, 1)))


def test_days_late_are_those_of_the_calendar() -> None:
    """By hand: 20 h end on Tuesday at 4, 40 h on Wednesday at 0:05 with the bed cleared: due on Monday and Tuesday, a day each."""
    assert weighed(Situation(jobs=TWO)).late == (0, 2)


def test_who_lacks_filament_or_money_has_no_date() -> None:
    """By hand: 150 g and 15 coins feed and pay the device that is due first, which is a day late; the other has no date."""
    reel = {"petg red": 100.0}
    grams = Situation(jobs=TWO, grams=(reel, reel), left_g={"petg red": 150.0})
    money = Situation(jobs=TWO, costs=(10.0, 10.0), budget=15.0)

    assert (weighed(grams).late, weighed(grams).unfed) == ((1, 1), frozenset({1}))
    assert (weighed(money).late, weighed(money).unpaid) == ((1, 1), frozenset({1}))


def test_the_same_jobs_are_put_on_a_calendar_once() -> None:
    """A calendar that was made is taken again, and may be told who goes short in it."""
    plans = list[Planned]()
    first = weighed(Situation(jobs=TWO), plans)

    assert weighed(Situation(jobs=TWO, budget=1.0), plans).late == first.late
    assert len(plans) == 1
    assert of_calendar(Situation(jobs=TWO), plans[0], frozenset({0, 1})).late == (2, 0)


def test_work_without_plates_begins_with_its_own_job() -> None:
    """By hand: an hour's work on a device that is printed, whose job begins on Thursday, due on Tuesday: two days late.

    Told by its own hours, by helpers, and by a way out alike; the chapter's clock began on Monday.
    """
    begins = datetime(2026, 12, 3, 8)
    printed = _device(date(2026, 12, 1))
    printed = replace(
        printed,
        loads=(),
        calendar=replace(printed.calendar, start=begins),
        steps=(Step(name="assemble", takes_min=60, role="maker"),),
    )
    jobs = (_device(date(2026, 12, 2)), printed)
    maker = Helper(code="M-1", roles=("maker",))
    way = ways_of(Change(what="as it is", jobs=jobs, costs=lambda *_: ""))[1]

    assert weighed(Situation(jobs=jobs)).late == (0, 2)
    assert weighed(Situation(jobs=jobs, helpers=(maker,))).late == (0, 2)
    assert (way.ready, way.late_days) == (begins + timedelta(hours=1), 2)

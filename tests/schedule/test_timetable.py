"""Timetables: attended windows, several printers, plates that find no time, ways out, tonight, and play with failures."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

import numpy as np
import pytest

from planner.job import Attended, Calendar, Printer, read_printer
from planner.schedule import (
    Chance,
    Placed,
    PlateLoad,
    Shop,
    Step,
    Task,
    expected_s,
    placed_steps,
    played,
    solved,
    tasks_of,
    timetable,
    ways_out,
)
from planner.schedule.calendar.weekly_spans import HORIZON_MIN
from planner.sourced import stated

CALENDAR = Calendar(
    start=datetime(2026, 12, 1, 17, 30),
    deadline=date(2026, 12, 3),
    attended=(
        Attended(days=(0, 1, 2, 3, 4), from_min=1050, to_min=1350),
        Attended(days=(5, 6), from_min=540, to_min=1320),
    ),
)


def _loads(*hours: float, printers: tuple[str, ...] = ("bench-220",), moves: bool = False) -> list[PlateLoad]:
    """Return plates that take some hours on every printer, each of a rank of its own."""
    return [
        PlateLoad(plate=k, takes_s=dict.fromkeys(printers, h * 3600.0), rank=k, moves=moves)
        for k, h in enumerate(hours, 1)
    ]


def test_the_first_article_is_the_shortest_of_the_plates_that_tell_most() -> None:
    """All printers wait for it, so of equal ranks the short one; on one printer nothing stands still, so by number."""
    bench = read_printer("bench-220", Path.cwd())
    loads = [
        PlateLoad(plate=n, takes_s={"bench-220": hours * 3600.0}, rank=rank)
        for n, (hours, rank) in enumerate([(8.0, 1), (3.0, 1), (1.0, 2)], 1)
    ]
    two = tasks_of(loads, CALENDAR, (bench, replace(bench, name="other")))
    one = tasks_of(loads, CALENDAR, (bench,))

    assert {task.plate: task.after for task in two} == {1: (2,), 2: (), 3: (2,)}
    assert {task.plate: task.after for task in one} == {1: (), 2: (1,), 3: (1,)}


def test_a_plate_starts_and_ends_in_one_attended_window(printer: Printer) -> None:
    """Two plates of 3 h do not fit one evening of 5 h; a plate of 8 h waits for Saturday; none runs unattended."""
    table = timetable(_loads(3, 3, 8), calendar=CALENDAR, printers=(printer,))
    assert table is not None

    assert [run.start for run in table.runs] == [
        datetime(2026, 12, 1, 17, 30),
        datetime(2026, 12, 2, 17, 30),
        datetime(2026, 12, 5, 9, 0),
    ]
    assert "late" in table.runs[2].reason
    assert table.tonight == "plate 1 on bench-220: start before 19:30, or not today"
    assert table.answer.gap_percent == 0.0


def test_a_plate_longer_than_every_window_says_what_to_do(printer: Printer) -> None:
    """14 h fit no window: no time, ways out in words, and the other plate still gets its time."""
    table = timetable(_loads(14, 2), calendar=CALENDAR, printers=(printer,))
    free = timetable(_loads(14), calendar=replace(CALENDAR, unattended=True), printers=(printer,))
    assert table is not None
    assert free is not None

    assert [run.plate for run in table.runs] == [2, 1]
    assert table.runs[0].start == CALENDAR.start
    assert table.runs[1].start is None
    assert "use a faster printer" in table.runs[1].reason
    assert free.runs[0].start == CALENDAR.start


def test_without_a_calendar_there_is_no_timetable(printer: Printer) -> None:
    """No [plan], or one without a start, means no times."""
    assert timetable(_loads(1), calendar=None, printers=(printer,)) is None
    assert timetable(_loads(1), calendar=Calendar(), printers=(printer,)) is None


def test_two_printers_share_the_plates_but_not_moving_parts(printer: Printer) -> None:
    """After the first article two printers finish sooner; parts that move on each other stay on one."""
    other = replace(printer, name="other")
    names = (printer.name, other.name)
    calendar = replace(CALENDAR, attended=(), deadline=None)
    alone = timetable(_loads(1, 4, 4), calendar=calendar, printers=(printer,))
    both = timetable(_loads(1, 4, 4, printers=names), calendar=calendar, printers=(printer, other))
    moving = timetable(_loads(1, 4, 4, printers=names, moves=True), calendar=calendar, printers=(printer, other))
    assert alone is not None
    assert both is not None
    assert moving is not None

    assert both.finish is not None
    assert alone.finish is not None
    assert both.finish < alone.finish
    assert {run.printer for run in both.runs} == set(names)
    assert len({run.printer for run in moving.runs}) == 1
    first = both.runs[0]
    assert first.end is not None
    assert all(run.start is not None and run.start > first.end for run in both.runs[1:])


def test_of_two_equal_printers_the_one_that_fails_less_gets_the_plate(printer: Printer) -> None:
    """Reliability counts: five times the failures, and the plate goes to the other."""
    bad = replace(printer, failure_per_hour=stated(0.05))
    good = replace(printer, name="good")
    table = timetable(
        _loads(10, printers=(bad.name, "good")), calendar=replace(CALENDAR, attended=()), printers=(bad, good)
    )
    assert table is not None

    assert table.runs[0].printer == "good"


def test_quiet_hours_are_kept_even_unattended(printer: Printer) -> None:
    """An 8 h plate with quiet from 23:00 to 07:00 waits for the next evening's end: it runs on a Saturday."""
    quiet = (
        Attended(days=tuple(range(7)), from_min=1380, to_min=1440),
        Attended(days=tuple(range(7)), from_min=0, to_min=420),
    )
    table = timetable(_loads(8), calendar=replace(CALENDAR, unattended=True, quiet=quiet), printers=(printer,))
    assert table is not None

    assert table.runs[0].start == datetime(2026, 12, 5, 9, 0)


def test_ways_out_are_ranked_by_when_the_device_is_ready(printer: Printer) -> None:
    """Late on evenings alone: one way keeps the deadline, unattended printing is among them, every way has its date, none is worse than the plan."""
    calendar = replace(CALENDAR, attended=CALENDAR.attended[:1], deadline=date(2026, 12, 4))
    steps = [Step(name="assemble", takes_min=60)]
    loads = _loads(2, 4, 4.5, 4, 3)
    ways = ways_out(loads, calendar, (printer,), steps)
    ready = [way.ready for way in ways if way.ready is not None]

    assert len(ready) == len(ways) >= 3
    assert ready == sorted(ready)
    assert ways[0].late_days == 0
    assert any("unattended" in way.what for way in ways)
    assert all(way.late_days is not None for way in ways)


def test_the_play_agrees_with_the_restart_formula() -> None:
    """One plate, always attended, no change: the mean finish is (e^(rate T) - 1)/rate, Daly (2006), within 5 %."""
    shop = Shop(change_min={"p": 1}, attended=((0, 500_000),))
    tasks = [Task(plate=1, takes_min={"p": 600})]
    placed = solved(tasks, shop).placed
    play = played(placed, {1: tasks[0]}, shop, {"p": Chance(per_hour=0.05, ratio=(1.0, 1.0, 1.0))}, seed=1)
    calm = played(placed, {1: tasks[0]}, shop, {"p": Chance(per_hour=0.0, ratio=(0.7, 1.0, 1.3))}, seed=1)

    assert play.expected == pytest.approx(expected_s(36_000.0, 0.05, 60.0) / 60.0, rel=0.05)
    assert play.p10 <= play.p50 <= play.p90
    # a triangle from 0.7 to 1.3 has its 90th percentile at 1.3 - 0.6 sqrt(0.1/2), closed form
    assert calm.p90 == pytest.approx(600 * (1.3 - 0.6 * np.sqrt(0.05)), rel=0.02)
    assert play == played(placed, {1: tasks[0]}, shop, {"p": Chance(per_hour=0.05, ratio=(1.0, 1.0, 1.0))}, seed=1)


def test_hands_rest_while_nobody_is_there_and_cords_settle() -> None:
    """Work goes on in the next span; a wait of 24 h is kept; nothing begins before its day."""
    steps = (
        Step(name="cord", takes_min=90),
        Step(name="again", takes_min=10, after=("cord",), wait_min=1440),
        Step(name="fit", takes_min=30, after=("again",), not_before_min=4320),
    )
    spans = ((0, 60), (1440, 1500), (2880, 2940), (4320, 4380))
    runs = placed_steps(steps, spans, 0)
    assert runs is not None

    assert [(run.start, run.end) for run in runs] == [(0, 1470), (2910, 2920), (4320, 4350)]
    assert placed_steps((Step(name="much", takes_min=1000),), spans, 0) is None


def test_shipped_printers_have_hazards(printer: Printer) -> None:
    """A large plate costs more on the printer that fails more."""
    large = read_printer("large-350", Path())

    assert large.failure_per_hour.value > printer.failure_per_hour.value


def test_what_finds_no_time_within_a_year_is_said(printer: Printer) -> None:
    """Sixty plates of 3 h, one evening a week: 52 or so have a time, the others a reason; nothing breaks."""
    calendar = replace(CALENDAR, attended=(Attended(days=(1,), from_min=1050, to_min=1350),), deadline=None)
    table = timetable(_loads(*[3.0] * 60), calendar=calendar, printers=(printer,))
    none = timetable(
        _loads(0.05),
        calendar=replace(calendar, attended=(Attended(days=(1,), from_min=1050, to_min=1055),)),
        printers=(printer,),
    )
    assert table is not None
    assert none is not None

    assert 40 <= sum(run.start is not None for run in table.runs) <= 54
    assert all("within a year" in run.reason for run in table.runs if run.start is None)
    assert none.runs[0].start is None
    assert "within a year" in none.runs[0].reason


def test_a_play_that_never_ends_counts_as_endless() -> None:
    """One mean time to failure a minute, a plate of ten hours: every play lasts the whole year, not fifty attempts."""
    shop = Shop(change_min={"p": 1}, attended=((0, HORIZON_MIN),))
    task = Task(plate=1, takes_min={"p": 600})
    run = Placed(plate=1, printer="p", start=0, end=600, clear=600, free=601)
    play = played([run], {1: task}, shop, {"p": Chance(per_hour=60.0, ratio=(1.0, 1.0, 1.0))}, seed=1)

    assert play.p10 == HORIZON_MIN


def test_where_the_first_plate_has_no_time_another_is_the_first_article(printer: Printer) -> None:
    """Plate 1 is too long for every window; plate 2 is then looked at before plate 3 starts on the second printer."""
    other = replace(printer, name="other")
    loads = _loads(14, 1, 1, printers=(printer.name, other.name))
    table = timetable(loads, calendar=CALENDAR, printers=(printer, other))
    assert table is not None
    runs = {run.plate: run for run in table.answer.placed}

    assert table.unmet == (1,)
    assert runs[3].start >= runs[2].free


def test_a_watched_plate_runs_inside_a_window_even_where_others_run_on(printer: Printer) -> None:
    """8 h with a spool that ends in it: not through Tuesday's night but on Saturday, begun before 14:00 at the latest."""
    loads = [replace(load, watched=True) for load in _loads(8)]
    table = timetable(loads, calendar=replace(CALENDAR, unattended=True), printers=(printer,))
    assert table is not None

    assert table.runs[0].start == datetime(2026, 12, 5, 9, 0)
    assert "start before 14:00" in table.tonight

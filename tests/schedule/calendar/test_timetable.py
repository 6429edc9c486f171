"""Timetables: attended windows, several printers, plates that find no time, ways out, tonight, and simulated failures."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

import numpy as np
import pytest

from planner.job import Attended, Calendar, Printer, read_printer
from planner.schedule import (
    Chance,
    JobLoads,
    PlateLoad,
    PrintRun,
    Shop,
    Step,
    Task,
    Timetable,
    Way,
    expected_s,
    placed_steps,
    played,
    solved,
    timetables,
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


def _table(loads: list[PlateLoad], calendar: Calendar, printers: tuple[Printer, ...]) -> Timetable:
    """Return the times of one job."""
    return timetables([JobLoads(loads=tuple(loads), calendar=calendar, printers=printers)])[0]


def test_what_shops_print_first_breaks_ties_and_costs_nothing(printer: Printer) -> None:
    """Of two plates of one length the one of the lower rank runs first; a long one of a low rank does not hold up others."""
    alike = [PlateLoad(plate=n, takes_s={printer.name: 7200.0}, rank=rank) for n, rank in ((1, 3), (2, 0))]
    table = _table(alike, CALENDAR, (printer,))
    assert [run.plate for run in table.runs] == [2, 1]

    loads = [PlateLoad(plate=n, takes_s={printer.name: h * 3600.0}, rank=n) for n, h in ((1, 8.0), (2, 4.5), (3, 0.5))]
    starts = {run.plate: run.start for run in _table(loads, CALENDAR, (printer,)).runs}
    assert starts[1] == datetime(2026, 12, 5, 9, 0)
    assert all(start is not None and start < datetime(2026, 12, 4) for n, start in starts.items() if n != 1)


def test_no_evening_stays_empty_while_a_plate_waits_that_fits_it(printer: Printer) -> None:
    """The three plates of a reacher (7.9, 4.5 and 0.6 h): by hand, the long one on Saturday, the others before it."""
    calendar = replace(CALENDAR, start=datetime(2026, 12, 1, 18, 36))
    table = _table(_loads(7.9, 4.5, 0.57), calendar, (printer,))

    assert [(run.plate, run.start) for run in table.runs if run.start] == [
        (3, datetime(2026, 12, 1, 18, 36)),
        (2, datetime(2026, 12, 2, 17, 30)),
        (1, datetime(2026, 12, 5, 9, 0)),
    ]
    assert table.answer.gap_percent == 0.0


def test_the_first_article_is_the_plate_with_which_all_are_done_soonest(printer: Printer) -> None:
    """On two printers all wait for it: by hand the plate of 1 h, whatever its rank; then the others side by side."""
    other = replace(printer, name="other")
    loads = [
        PlateLoad(plate=n, takes_s=dict.fromkeys((printer.name, "other"), hours * 3600.0), rank=rank)
        for n, (hours, rank) in enumerate([(4.0, 0), (3.0, 1), (1.0, 2)], 1)
    ]
    table = _table(loads, replace(CALENDAR, attended=()), (printer, other))
    runs = {run.plate: run for run in table.placed}

    assert runs[3].start_min == 0
    assert runs[1].start_min == runs[2].start_min == runs[3].free_min


def test_a_plate_starts_and_ends_in_one_attended_window(printer: Printer) -> None:
    """Two plates of 3 h do not fit one evening of 5 h; a plate of 8 h waits for Saturday; none runs unattended."""
    table = _table(_loads(3, 3, 8), CALENDAR, (printer,))

    assert [run.start for run in table.runs] == [
        datetime(2026, 12, 1, 17, 30),
        datetime(2026, 12, 2, 17, 30),
        datetime(2026, 12, 5, 9, 0),
    ]
    assert "late" in table.runs[2].reason
    assert table.first_start == "plate 1 on bench-220: start before 19:30, or not today"
    assert table.answer.gap_percent == 0.0


def test_a_plate_longer_than_every_window_says_what_to_do(printer: Printer) -> None:
    """14 h fit no window: no time, ways out in words, and the other plate still gets its time."""
    table = _table(_loads(14, 2), CALENDAR, (printer,))
    free = _table(_loads(14), replace(CALENDAR, unattended=True), (printer,))

    assert [run.plate for run in table.runs] == [2, 1]
    assert table.runs[0].start == CALENDAR.start
    assert table.runs[1].start is None
    assert "use a faster printer" in table.runs[1].reason
    assert "it takes 14.0 h and the longest attended window is 13.0 h" in table.runs[1].reason
    assert free.runs[0].start == CALENDAR.start


def test_a_calendar_without_a_start_has_no_dates(printer: Printer) -> None:
    """Whoever asks for dates all the same is told so."""
    with pytest.raises(ValueError, match="without a start"):
        _table(_loads(1), Calendar(), (printer,))


def test_two_printers_share_the_plates_but_not_moving_parts(printer: Printer) -> None:
    """After the first article two printers finish sooner; parts that move on each other stay on one."""
    other = replace(printer, name="other")
    names = (printer.name, other.name)
    calendar = replace(CALENDAR, attended=(), deadline=None)
    alone = _table(_loads(1, 4, 4), calendar, (printer,))
    both = _table(_loads(1, 4, 4, printers=names), calendar, (printer, other))
    moving = _table(_loads(1, 4, 4, printers=names, moves=True), calendar, (printer, other))

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
    table = _table(_loads(10, printers=(bad.name, "good")), replace(CALENDAR, attended=()), (bad, good))

    assert table.runs[0].printer == "good"


def test_quiet_hours_are_kept_even_unattended(printer: Printer) -> None:
    """An 8 h plate with quiet from 23:00 to 07:00 waits for the next evening's end: it runs on a Saturday."""
    quiet = (
        Attended(days=tuple(range(7)), from_min=1380, to_min=1440),
        Attended(days=tuple(range(7)), from_min=0, to_min=420),
    )
    table = _table(_loads(8), replace(CALENDAR, unattended=True, quiet=quiet), (printer,))

    assert table.runs[0].start == datetime(2026, 12, 5, 9, 0)


def test_ways_out_are_ranked_by_when_the_device_is_ready(printer: Printer) -> None:
    """Late on evenings alone: one way keeps the deadline, unattended printing is among them, every way has its date, none is worse than the plan."""
    calendar = replace(CALENDAR, attended=CALENDAR.attended[:1], deadline=date(2026, 12, 4))
    steps = [Step(name="assemble", takes_min=60)]
    loads = _loads(2, 4, 4.5, 4, 3)
    job = JobLoads(loads=tuple(loads), calendar=calendar, printers=(printer,), steps=tuple(steps))
    ways = ways_out((job,), [Way(what="as it is", ready=None, late_days=None, unmet_n=1)])[0]
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
    play = played(placed, {(0, 1): tasks[0]}, shop, {"p": Chance(per_hour=0.05, ratio=(1.0, 1.0, 1.0))}, seed=1)[0]
    calm = played(placed, {(0, 1): tasks[0]}, shop, {"p": Chance(per_hour=0.0, ratio=(0.7, 1.0, 1.3))}, seed=1)[0]

    assert play.expected_min == pytest.approx(expected_s(36_000.0, 0.05, 60.0) / 60.0, rel=0.05)
    assert play.p10_min <= play.p50_min <= play.p90_min
    # a triangle from 0.7 to 1.3 has its 90th percentile at 1.3 - 0.6 sqrt(0.1/2), closed form
    assert calm.p90_min == pytest.approx(600 * (1.3 - 0.6 * np.sqrt(0.05)), rel=0.02)
    assert (
        play == played(placed, {(0, 1): tasks[0]}, shop, {"p": Chance(per_hour=0.05, ratio=(1.0, 1.0, 1.0))}, seed=1)[0]
    )


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

    assert [(run.start_min, run.end_min) for run in runs] == [(0, 1470), (2910, 2920), (4320, 4350)]
    assert placed_steps((Step(name="much", takes_min=1000),), spans, 0) is None


def test_shipped_printers_have_hazards(printer: Printer) -> None:
    """A large plate costs more on the printer that fails more."""
    large = read_printer("large-350", Path())

    assert large.failure_per_hour.value > printer.failure_per_hour.value


def test_what_finds_no_time_within_a_year_is_said(printer: Printer) -> None:
    """Sixty plates of 3 h, one evening a week: 52 or so have a time, the others a reason; nothing breaks."""
    calendar = replace(CALENDAR, attended=(Attended(days=(1,), from_min=1050, to_min=1350),), deadline=None)
    table = _table(_loads(*[3.0] * 60), calendar, (printer,))
    none = _table(
        _loads(0.05), replace(calendar, attended=(Attended(days=(1,), from_min=1050, to_min=1055),)), (printer,)
    )

    assert 40 <= sum(run.start is not None for run in table.runs) <= 54
    assert all("within a year" in run.reason for run in table.runs if run.start is None)
    assert none.runs[0].start is None
    assert "within a year" in none.runs[0].reason


def test_a_play_that_never_ends_counts_as_endless() -> None:
    """One mean time to failure a minute, a plate of ten hours: every play lasts the whole year, not fifty attempts."""
    shop = Shop(change_min={"p": 1}, attended=((0, HORIZON_MIN),))
    task = Task(plate=1, takes_min={"p": 600})
    run = PrintRun(plate=1, printer="p", start_min=0, end_min=600, clear_min=600, free_min=601)
    play = played([run], {(0, 1): task}, shop, {"p": Chance(per_hour=60.0, ratio=(1.0, 1.0, 1.0))}, seed=1)[0]

    assert play.p10_min == HORIZON_MIN


def test_where_one_plate_has_no_time_another_is_the_first_article(printer: Printer) -> None:
    """Plate 1 is too long for every window; one of the others is then looked at before the other starts elsewhere."""
    other = replace(printer, name="other")
    table = _table(_loads(14, 1, 1, printers=(printer.name, other.name)), CALENDAR, (printer, other))
    runs = sorted(table.placed, key=lambda run: run.start_min)

    assert table.unmet == (1,)
    assert runs[1].start_min >= runs[0].free_min


def test_a_watched_plate_runs_inside_a_window_even_where_others_run_on(printer: Printer) -> None:
    """8 h with a spool that ends in it: not through Tuesday's night but on Saturday, begun before 14:00 at the latest."""
    loads = [replace(load, watched=True) for load in _loads(8)]
    table = _table(loads, replace(CALENDAR, unattended=True), (printer,))

    assert table.runs[0].start == datetime(2026, 12, 5, 9, 0)
    assert "start before 14:00" in table.first_start

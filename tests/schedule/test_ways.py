"""What ways out promise and cost, without a job around them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

from planner.job import Attended, Calendar, Printer
from planner.schedule import PlateLoad, Step, ways_out
from planner.schedule.ways_out.job_changes import changes

LATE = Attended(days=(0, 1, 2, 3, 4), from_min=1260, to_min=1440)
CALENDAR = Calendar(
    start=datetime(2026, 12, 1, 17, 30), deadline=date(2026, 12, 1), attended=(LATE,), first_article=False
)


def _loads(*hours: float, printer: str) -> list[PlateLoad]:
    """Return plates of some hours on one printer."""
    return [PlateLoad(plate=k + 1, takes_s={printer: 3600.0 * h}) for k, h in enumerate(hours)]


def test_hands_without_a_time_are_not_ready(printer: Printer) -> None:
    """Work that nobody finds the time for within a year: no way promises a date, the unattended rule least of all."""
    steps = [Step(name="assemble", takes_min=60 * 24 * 400)]
    ways = ways_out(_loads(1, 2, printer=printer.name), CALENDAR, (printer,), steps)

    assert all(way.ready is None for way in ways)


def test_a_window_to_midnight_begins_earlier(printer: Printer) -> None:
    """What cannot end later begins sooner: 21:00 to 24:00 becomes 19:00 to 24:00, 10 h more a week."""
    loads = _loads(4.5, printer=printer.name)
    longer = next(c for c in changes(loads, CALENDAR, (printer,), ()) if "longer" in c.what)

    assert longer.calendar.attended == (replace(LATE, from_min=1140),)
    assert longer.costs((), None).startswith("10.0 h more a week")  # type: ignore[arg-type]
    assert any("longer" in way.what and way.unmet_n == 0 for way in ways_out(loads, CALENDAR, (printer,), ()))


def test_a_whole_day_grows_no_longer(printer: Printer) -> None:
    """Somebody there day and night: hours more are no way, and none is told."""
    always = replace(CALENDAR, attended=(Attended(days=tuple(range(7)), from_min=0, to_min=1440),))
    told = [change.what for change in changes(_loads(1, printer=printer.name), always, (printer,), ())]

    assert not any("be there" in what for what in told)


def test_one_more_printer_brings_nobody(printer: Printer) -> None:
    """As many clear beds as before."""
    change = next(c for c in changes(_loads(1, printer=printer.name), CALENDAR, (printer,), ()) if "one more" in c.what)

    assert len(change.printers) == 2
    assert change.calendar.people_n == 1


def test_costs_are_counted_from_the_calendar(printer: Printer) -> None:
    """A plate of 8 h begun at 21:00 runs 3 h of them in company and 5 h with nobody there."""
    way = next(w for w in ways_out(_loads(8, printer=printer.name), CALENDAR, (printer,), ()) if "unattended" in w.what)

    assert way.costs == "5.0 h of printing with nobody there, of one plate at most 5.0 h"


def test_dates_are_those_of_the_wall(printer: Printer) -> None:
    """Over the night in which clocks go back (25 October 2026, Berlin) a day has 25 h: ready an hour less by the clock."""
    calendar = replace(
        CALENDAR, start=datetime(2026, 10, 24, 20, 0), deadline=date(2026, 10, 24), attended=(), zone="Europe/Berlin"
    )
    last = ways_out(_loads(10, printer=printer.name), calendar, (printer,), ())[-1]
    assert last.ready is not None
    plain = ways_out(_loads(10, printer=printer.name), replace(calendar, zone=""), (printer,), ())[-1]
    assert plain.ready is not None

    assert (plain.ready - last.ready).total_seconds() == 3600

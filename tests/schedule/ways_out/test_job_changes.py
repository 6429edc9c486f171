"""What ways out promise and cost, without a job around them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

from planner.job import Attended, Calendar, Printer
from planner.schedule import JobLoads, PlateLoad, Step, Way, ways_out
from planner.schedule.ways_out.job_changes import changes, with_printer

LATE = Attended(days=(0, 1, 2, 3, 4), from_min=1260, to_min=1440)
CALENDAR = Calendar(
    start=datetime(2026, 12, 1, 17, 30), deadline=date(2026, 12, 1), attended=(LATE,), first_article=False
)


def _job(
    *hours: float, printer: Printer, calendar: Calendar = CALENDAR, steps: tuple[Step, ...] = ()
) -> tuple[JobLoads, ...]:
    """Return one job of plates of some hours on one printer."""
    loads = tuple(PlateLoad(plate=k + 1, takes_s={printer.name: 3600.0 * h}) for k, h in enumerate(hours))
    return (JobLoads(loads=loads, calendar=calendar, printers=(printer,), steps=steps),)


def _ways(jobs: tuple[JobLoads, ...], ready: datetime | None = None, late_days: int | None = None) -> tuple[Way, ...]:
    """Return the ways out of one job that is ready at a moment; left out: not at all."""
    return ways_out(jobs, [Way(what="as it is", ready=ready, late_days=late_days, unmet_n=0 if ready else 1)])[0]


def test_hands_without_a_time_are_not_ready(printer: Printer) -> None:
    """Work that nobody finds the time for within a year: no way promises a date, the unattended rule least of all."""
    steps = (Step(name="assemble", takes_min=60 * 24 * 400),)
    ways = _ways(_job(1, 2, printer=printer, steps=steps))

    assert all(way.ready is None for way in ways)


def test_a_window_to_midnight_begins_earlier(printer: Printer) -> None:
    """What cannot end later begins sooner: 21:00 to 24:00 becomes 19:00 to 24:00, 10 h more a week."""
    jobs = _job(4.5, printer=printer)
    longer = next(c for c in changes(jobs) if "longer" in c.what)

    assert longer.jobs[0].calendar.attended == (replace(LATE, from_min=1140),)
    assert longer.costs((), None).startswith("10.0 h more a week")  # type: ignore[arg-type]
    assert any("longer" in way.what and way.unmet_n == 0 for way in _ways(jobs))


def test_a_whole_day_grows_no_longer(printer: Printer) -> None:
    """Somebody there day and night: hours more are no way, and none is told."""
    always = replace(CALENDAR, attended=(Attended(days=tuple(range(7)), from_min=0, to_min=1440),))
    told = [change.what for change in changes(_job(1, printer=printer, calendar=always))]

    assert not any("longer" in what or "be there" in what for what in told)


def test_one_more_printer_brings_nobody(printer: Printer) -> None:
    """As many clear beds as before."""
    change = next(c for c in changes(_job(1, printer=printer)) if "one more" in c.what)

    assert len(change.jobs[0].printers) == 2
    assert change.jobs[0].calendar.people_n == 1


def test_costs_are_counted_from_the_calendar(printer: Printer) -> None:
    """A plate of 8 h begun at 21:00 runs 3 h of them in company and 5 h with nobody there."""
    way = next(w for w in _ways(_job(8, printer=printer)) if "unattended" in w.what)

    assert way.costs == "5.0 h of printing with nobody there, at most 5.0 h for one plate"


def test_dates_are_those_of_the_wall(printer: Printer) -> None:
    """Over the night in which clocks go back (25 October 2026, Berlin) a day has 25 h: ready an hour less by the clock."""
    calendar = replace(
        CALENDAR, start=datetime(2026, 10, 24, 20, 0), deadline=date(2026, 10, 24), attended=(), zone="Europe/Berlin"
    )
    found = [
        next(way.ready for way in _ways(_job(10, printer=printer, calendar=each)) if "one more" in way.what)
        for each in (calendar, replace(calendar, zone=""))
    ]
    last, plain = found
    assert last is not None
    assert plain is not None

    assert (plain - last).total_seconds() == 3600


def test_one_more_printer_prints_its_coupon_first_where_others_have_to(printer: Printer) -> None:
    """Nobody has measured it: it takes plates when the coupon of the one like it is measured; without coupons, at once."""
    gate = datetime(2026, 12, 1, 21, 40)
    (job,) = _job(1, printer=printer)
    waits = replace(job, measured={printer.name: gate}, printers_free={printer.name: gate})
    more = replace(printer, name="more")

    assert with_printer(waits, printer, more, 1).printers_free == {printer.name: gate, "more": gate}
    assert with_printer(job, printer, more, 1).printers_free == {}


def test_a_window_in_the_evening_ends_later(printer: Printer) -> None:
    """17:00 to 21:00 becomes 17:00 to 23:00, no later."""
    evening = replace(LATE, from_min=1020, to_min=1260)
    jobs = _job(4.5, printer=printer, calendar=replace(CALENDAR, attended=(evening,)))
    longer = next(c for c in changes(jobs) if "longer" in c.what)

    assert longer.jobs[0].calendar.attended == (replace(evening, to_min=1380),)

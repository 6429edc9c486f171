"""Ways out: what would bring the device forward, each planned anew and told with its figures, best first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from planner.job import Attended, Calendar, Printer
from planner.timing.dispatch import first_calendar, in_order
from planner.timing.solve import EXACT_N, SEED, solved, unmet
from planner.timing.steps import Step, placed_steps
from planner.timing.task import Placed
from planner.timing.timetable import PlateLoad, shop_of, tasks_of

MORE_MIN = 120
"""By how much attended windows are made longer, in the way out that does so."""
DAY_MIN = 24 * 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One change, when the device would be ready with it, how many days late that is, and the plates without a time.

    ``ready`` is None where some plate still has no time.
    """

    what: str
    ready: datetime | None
    late_days: int | None
    unmet_n: int


def ways_out(
    loads: Sequence[PlateLoad],
    calendar: Calendar,
    printers: Sequence[Printer],
    steps: Sequence[Step],
    halves: Mapping[int, Sequence[float]],
) -> tuple[Way, ...]:
    """Return the ways that help, the one that is ready first at the head.

    ``halves`` gives by plate the seconds of the plates that its pieces would be parted into. More than a few plates are
    dispatched, not solved: the order of the ways is what matters here.
    """
    today = _ready("as it is", loads, calendar, printers, steps)
    found = [_ready(what, *changed, steps) for what, changed in _changes(loads, calendar, printers, halves)]
    better = [way for way in found if _rank(way) < _rank(today)]
    return tuple(sorted(better, key=_rank))


def _rank(way: Way) -> tuple[int, datetime]:
    """Return what a way is ranked by."""
    return way.unmet_n, way.ready or datetime.max  # noqa: DTZ901  only compared


def _changes(
    loads: Sequence[PlateLoad],
    calendar: Calendar,
    printers: Sequence[Printer],
    halves: Mapping[int, Sequence[float]],
) -> Iterator[tuple[str, tuple[Sequence[PlateLoad], Calendar, Sequence[Printer]]]]:
    """Yield changes of the plates, of the calendar and of the printers."""
    if not calendar.unattended:
        yield "have a rule that lets plates run on unattended", (loads, replace(calendar, unattended=True), printers)
    if calendar.attended:
        longer = tuple(_longer(window) for window in calendar.attended)
        what = f"be there {MORE_MIN // 60} h longer every time"
        yield what, (loads, replace(calendar, attended=longer), printers)
        weekend = Attended(days=(5, 6), from_min=8 * 60, to_min=23 * 60)
        what = "be there on Saturdays and Sundays from 08:00 to 23:00"
        yield what, (loads, replace(calendar, attended=(*calendar.attended, weekend)), printers)
    for printer in printers:
        more = replace(printer, name=f"{printer.name} (one more)")
        both = [
            replace(load, takes_s={**load.takes_s, more.name: load.takes_s[printer.name]})
            if printer.name in load.takes_s
            else load
            for load in loads
        ]
        yield f"have one more printer like {printer.name}", (both, calendar, (*printers, more))
    if halves:
        plates = ", ".join(str(plate) for plate in sorted(halves))
        yield f"part plate {plates} into {_told(halves)}", (_halved(loads, halves), calendar, printers)
    if len(loads) > 1:
        free = [replace(load, rank=0) for load in loads]
        what = "print in any order, so that a wrong scale may show late"
        yield what, (free, replace(calendar, first_article=False), printers)


def _told(halves: Mapping[int, Sequence[float]]) -> str:
    """Return into how many plates of how many hours."""
    hours = [seconds / 3600 for parts in halves.values() for seconds in parts]
    return f"{len(hours)} of {min(hours):.1f} to {max(hours):.1f} h"


def _longer(window: Attended) -> Attended:
    """Return a window that ends later, at midnight at the latest."""
    return replace(window, to_min=min(DAY_MIN, window.to_min + MORE_MIN))


def _halved(loads: Sequence[PlateLoad], halves: Mapping[int, Sequence[float]]) -> list[PlateLoad]:
    """Return the plates with some parted; times on other printers go in proportion."""
    found, number = [], max(load.plate for load in loads)
    for load in loads:
        if load.plate not in halves:
            found.append(load)
            continue
        whole = load.takes_s.get(next(iter(load.takes_s), ""), 1.0)
        for index, seconds in enumerate(halves[load.plate]):
            number += 1
            takes = {printer: s * seconds / whole for printer, s in load.takes_s.items()}
            found.append(replace(load, plate=load.plate if not index else number, takes_s=takes))
    return found


def _ready(
    what: str, loads: Sequence[PlateLoad], calendar: Calendar, printers: Sequence[Printer], steps: Sequence[Step]
) -> Way:
    """Return when a device is ready under a change."""
    assert calendar.start is not None
    shop, tasks = shop_of(calendar, printers), tasks_of(loads, calendar, printers)
    left = unmet(tasks, shop)
    meant = in_order([task for task in tasks if task.plate not in left])
    placed: tuple[Placed, ...] = ()
    try:
        placed = solved(meant, shop).placed if len(meant) <= EXACT_N else first_calendar(meant, shop, SEED)
    except ValueError:
        placed = ()
    runs = placed_steps(steps, shop.attended, max((run.free for run in placed), default=0)) if placed else None
    ready = None if left or not placed else calendar.start
    if ready is not None:
        end = runs[-1].end if runs else max(run.end for run in placed)
        ready += timedelta(minutes=end)
    late = None
    if ready is not None and calendar.deadline is not None:
        late = max(0, (ready.date() - calendar.deadline).days)
    return Way(what=what, ready=ready, late_days=late, unmet_n=len(left) if placed or left else len(tasks))

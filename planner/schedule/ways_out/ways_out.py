"""Ways out: what would bring the device forward, each planned anew and told with its figures, best first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from planner.job import Calendar, Printer
from planner.schedule.calendar.task import Placed, Shop
from planner.schedule.calendar.timetable import PlateLoad, shop_of, tasks_of
from planner.schedule.calendar.wall_clock import Wall
from planner.schedule.hands.hand_steps import Step, placed_steps
from planner.schedule.solver.dispatch import first_calendar, in_order
from planner.schedule.solver.solve import EXACT_N, SEED, solved, unmet
from planner.schedule.ways_out.job_changes import Change, changes


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One change, when the device would be ready with it, how many days late that is, and the plates without a time.

    ``ready`` is None where some plate, or the work by hand after them, still has no time. ``costs`` says what the
    change takes. ``solved`` is False where a first calendar was made, not the best: the plan itself is ready by about
    then.
    """

    what: str
    ready: datetime | None
    late_days: int | None
    unmet_n: int
    costs: str = ""
    solved: bool = True


def ways_out(
    loads: Sequence[PlateLoad],
    calendar: Calendar,
    printers: Sequence[Printer],
    steps: Sequence[Step],
    parted: Sequence[PlateLoad] = (),
    *,
    ready: datetime | None = None,
    unmet_n: int | None = None,
) -> tuple[Way, ...]:
    """Return the ways that help, the one that is ready first at the head; at last the deadline that would be met.

    ``parted`` are the plates as the planner would part them, where the job forbids it. ``ready`` and ``unmet_n`` say
    what the plan has as it is, where it is known. More than a few plates are dispatched, not solved: the order of the
    ways is what matters then.
    """
    as_is = Change(what="as it is", loads=loads, calendar=calendar, printers=printers, costs=lambda _runs, _shop: "")
    today = _way(as_is, steps)
    if unmet_n is not None:  # what the plan really has, by a calendar that was solved
        today = Way(what="as it is", ready=ready, late_days=_late_days(ready, calendar), unmet_n=unmet_n)
    found = [_way(change, steps) for change in changes(loads, calendar, printers, parted)]
    better = sorted((way for way in found if way_rank(way) < way_rank(today)), key=way_rank)
    return (*better, *later_deadline(today))


def later_deadline(today: Way) -> tuple[Way, ...]:
    """Return the way of a later deadline; none where it is kept or no date is known."""
    if today.ready is None or not today.late_days:
        return ()
    what = f"agree on {today.ready:%a %d %b} as the deadline"
    return (Way(what=what, ready=today.ready, late_days=0, unmet_n=0, costs=f"{today.late_days} d of waiting"),)


def way_rank(way: Way) -> tuple[int, datetime]:
    """Return what a way is ranked by."""
    return way.unmet_n, way.ready or datetime.max  # noqa: DTZ901  only compared


def _late_days(ready: datetime | None, calendar: Calendar) -> int | None:
    """Return the days from the deadline to a date; None without one of them."""
    if ready is None or calendar.deadline is None:
        return None
    return max(0, (ready.date() - calendar.deadline).days)


def _way(change: Change, steps: Sequence[Step]) -> Way:
    """Return when a device is ready under a change."""
    shop, tasks = shop_of(change.calendar, change.printers), tasks_of(change.loads, change.calendar, change.printers)
    left = unmet(tasks, shop)
    # as in the plan itself, the first article is one of the plates that have a time
    meant = tasks_of([x for x in change.loads if x.plate not in left], change.calendar, change.printers)
    exact = len(meant) <= EXACT_N
    placed: tuple[Placed, ...] = ()
    try:
        placed = solved(meant, shop).placed if exact else first_calendar(in_order(meant), shop, SEED)
    except ValueError:
        placed = ()
    if not placed:
        return Way(what=change.what, ready=None, late_days=None, unmet_n=len(tasks), solved=exact)
    way = way_of(change.what, placed, shop, steps, change.calendar, unmet_n=len(left))
    return replace(way, costs=change.costs(placed, shop), solved=exact)


def way_of(
    what: str, placed: Sequence[Placed], shop: Shop, steps: Sequence[Step], calendar: Calendar, *, unmet_n: int
) -> Way:
    """Return when a device is ready whose plates run so, and how late that is."""
    cleared = max((run.free for run in placed), default=0)
    runs = placed_steps(steps, shop.attended, cleared)
    ready = None
    if not unmet_n and runs is not None:
        ready = Wall.of(calendar).at(runs[-1].end if runs else cleared)
    return Way(what=what, ready=ready, late_days=_late_days(ready, calendar), unmet_n=unmet_n)

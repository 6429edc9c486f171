"""Changes: what may be changed in a late job, each as the job file would say it, and what it costs."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from planner.job import Attended, Calendar, Printer
from planner.schedule.calendar.task import Placed, Shop
from planner.schedule.calendar.timetable import PlateLoad, shop_of
from planner.schedule.calendar.weekly_spans import Span, clipped, joined

MORE_MIN = 120
"""By how much attended windows are made longer, in the way out that does so."""
DAY_MIN = 24 * 60
WEEKEND = Attended(days=(5, 6), from_min=8 * 60, to_min=23 * 60)

Costs = Callable[[Sequence[Placed], Shop], str]
"""From the changed calendar: its runs, and where and when they run."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change in words, the problem under it, and what it costs as its calendar tells."""

    what: str
    loads: Sequence[PlateLoad]
    calendar: Calendar
    printers: Sequence[Printer]
    costs: Costs


def changes(
    loads: Sequence[PlateLoad], calendar: Calendar, printers: Sequence[Printer], parted: Sequence[PlateLoad]
) -> Iterator[Change]:
    """Yield what may be changed: rules, hours, people, printers, plates; ``parted`` are the plates if they are parted.

    Everything can be said in the job file, so that every promise can be planned.
    """

    def to(what: str, costs: Costs, **keys: object) -> Change:
        changed = replace(calendar, **keys)  # type: ignore[arg-type]  # keys of the record, by name
        return Change(what=what, loads=loads, calendar=changed, printers=printers, costs=costs)

    if not calendar.unattended:
        yield to("have a rule that lets plates run on unattended", _alone, unattended=True)
    if calendar.attended:
        for what, attended in _hours(calendar):
            more_h = (_week_min(attended) - _week_min(calendar.attended)) / 60.0
            told = f"{more_h:.1f} h more a week with somebody there"
            if more_h > 0:
                yield to(what, _said(told), attended=attended)
    if calendar.quiet:
        yield to("let printers run in quiet hours", _quiet_of(calendar, printers), quiet=())
    people_n = calendar.people_n or len(printers)
    if people_n < len(printers):
        what = f"have {people_n + 1} people to clear beds, not {people_n}"
        yield to(what, _said("one more person whenever somebody is there"), people_n=people_n + 1)
    if calendar.one_printer and len(printers) > 1 and sum(load.moves for load in loads) > 1:
        told = "parts that move on each other come from printers with different errors: look at their play"
        yield to("print parts that move on each other on several printers", _said(told), one_printer=False)
    if calendar.first_article and len(loads) > 1:
        yield to("do not wait for the first plate to be looked at", _unseen, first_article=False)
    for printer in printers:
        more = replace(printer, name=f"{printer.name} (one more)")
        both = [
            replace(load, takes_s={**load.takes_s, more.name: load.takes_s[printer.name]}, ratio_by=_by(load, more))
            if printer.name in load.takes_s
            else load
            for load in loads
        ]
        yield Change(
            what=f"have one more printer like {printer.name}",
            loads=both,
            calendar=replace(calendar, people_n=people_n),  # a printer brings nobody who clears its bed
            printers=(*printers, more),
            costs=_printer_of(more.name),
        )
    if parted:
        yield Change(
            what=f"part the plates: {len(parted)} instead of {len(loads)}",
            loads=parted,
            calendar=calendar,
            printers=printers,
            costs=_parted_of(loads, parted),
        )


def _said(told: str) -> Costs:
    """Return costs that no calendar changes."""
    return lambda _runs, _shop: told


def _by(load: PlateLoad, more: Printer) -> dict[str, float]:
    """Return a plate's failure ratios with those of a printer for one like it."""
    like = more.name.removesuffix(" (one more)")
    return {**load.ratio_by, **({more.name: load.ratio_by[like]} if like in load.ratio_by else {})}


def _hours(calendar: Calendar) -> Iterator[tuple[str, tuple[Attended, ...]]]:
    """Yield longer hours of somebody being there."""
    yield f"be there {MORE_MIN // 60} h longer every time", tuple(_longer(window) for window in calendar.attended)
    yield "be there on Saturdays and Sundays from 08:00 to 23:00", (*calendar.attended, WEEKEND)


def _longer(window: Attended) -> Attended:
    """Return a window that ends later; what does not go before midnight is put before its begin."""
    to_min = min(DAY_MIN, window.to_min + MORE_MIN)
    before = MORE_MIN - (to_min - window.to_min)
    return replace(window, from_min=max(0, window.from_min - before), to_min=to_min)


def _week_min(windows: Sequence[Attended]) -> int:
    """Return for how long in a week somebody is there; windows that overlap count once."""
    spans = joined((day * DAY_MIN + w.from_min, day * DAY_MIN + w.to_min) for w in windows for day in w.days)
    return sum(b - a for a, b in spans)


def _within_min(run: Placed, spans: Sequence[Span]) -> int:
    """Return for how many minutes of a run something holds."""
    return sum(b - a for a, b in clipped(spans, run.start, run.end))


def _alone(runs: Sequence[Placed], shop: Shop) -> str:
    """Say for how long plates run with nobody there."""
    alone = [run.end - run.start - _within_min(run, shop.attended) for run in runs]
    return f"{sum(alone) / 60:.1f} h of printing with nobody there, of one plate at most {max(alone) / 60:.1f} h"


def _quiet_of(calendar: Calendar, printers: Sequence[Printer]) -> Costs:
    """Return what says for how long plates run in hours that are to be quiet."""
    quiet = shop_of(calendar, printers).quiet
    return lambda runs, _: f"{sum(_within_min(run, quiet) for run in runs) / 60:.1f} h of printing in quiet hours"


def _unseen(runs: Sequence[Placed], _: Shop) -> str:
    """Say how much is printed before the first plate is looked at, which tells a wrong scale."""
    first = min(runs, key=lambda run: (run.free, run.plate))
    blind = [run for run in runs if run.start < first.free and run.plate != first.plate]
    hours = sum(run.end - run.start for run in blind) / 60
    return f"{len(blind)} plates of {hours:.1f} h begin before the first one could show that something is wrong"


def _printer_of(name: str) -> Costs:
    """Return what says for how long another printer runs."""

    def told(runs: Sequence[Placed], _: Shop) -> str:
        hours = sum(run.end - run.start for run in runs if run.printer == name) / 60
        return f"a printer for {hours:.1f} h of printing (profiles hold no price of one), and nobody more"

    return told


def _parted_of(loads: Sequence[PlateLoad], parted: Sequence[PlateLoad]) -> Costs:
    """Return what says how many more changes and hours of printing parted plates take."""
    whole, less = (sum(min(x.takes_s.values(), default=0.0) for x in some) / 3600 for some in (loads, parted))
    more_n = len(parted) - len(loads)
    return lambda _runs, _shop: f"{more_n} more plates to change, {less - whole:+.1f} h of printing"

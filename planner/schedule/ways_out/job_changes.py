"""Changes: what may be changed where jobs are late, each as the job file would say it, and what it costs."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from planner.job import Attended, Calendar, Printer
from planner.phrases import plural
from planner.schedule.calendar.job_tasks import JobLoads, PlateLoad, printers_of_all, shop_of_all
from planner.schedule.calendar.schedule_records import PrintRun, Shop
from planner.schedule.calendar.schedule_terms import last_free_min
from planner.schedule.calendar.weekly_spans import Span, clipped, joined

MORE_MIN = 120
"""By how much attended windows are made longer, in the way out that does so."""
DAY_MIN = 24 * 60
WEEKEND = Attended(days=(5, 6), from_min=8 * 60, to_min=23 * 60)

Costs = Callable[[Sequence[PrintRun], Shop], str]
"""From the changed schedule: its runs, and where and when they run."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """The plates of all jobs as ``split = "wish"`` in their files would split them."""

    wish: str
    jobs: tuple[JobLoads, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change in words, all jobs under it, and what it costs as its schedule tells."""

    what: str
    jobs: tuple[JobLoads, ...]
    costs: Costs


def changes(jobs: tuple[JobLoads, ...]) -> Iterator[Change]:
    """Yield what may be changed for all jobs: rules, hours, people, printers.

    Everything can be said in the job files, so that every promise can be planned.
    """
    yield from _changed_place(jobs)
    printers = printers_of_all(jobs)
    several = [job for job in jobs if job.calendar.one_printer and len(job.printers) > 1]
    if any(sum(load.moves for load in job.loads) > 1 for job in several):
        told = "parts that move on each other then come from different printers: check their play"
        yield _to(jobs, "print parts that move on each other on several printers", _said(told), one_printer=False)
    if any(job.calendar.first_article and len(job.loads) > 1 for job in jobs):
        yield _to(jobs, "start other plates before the first one is inspected", _unseen, first_article=False)
    for printer in printers:
        more = replace(printer, name=f"{printer.name} (one more)")
        yield Change(
            what=f"add one more printer like {printer.name}",
            jobs=tuple(with_printer(job, printer, more, jobs[0].calendar.people_n or len(printers)) for job in jobs),
            costs=_printer_of(more.name),
        )


def split_change(jobs: Sequence[JobLoads], split: Split) -> Change:
    """Return the change that splits plates."""
    before, after = ([load for job in some for load in job.loads] for some in (jobs, split.jobs))
    return Change(
        what=f'split the plates: {len(after)} instead of {len(before)} (split = "{split.wish}")',
        jobs=split.jobs,
        costs=_parted_of(before, after),
    )


def _to(jobs: Sequence[JobLoads], what: str, costs: Costs, **keys: object) -> Change:
    """Return the change of some keys in every job's calendar."""
    changed = (replace(job, calendar=replace(job.calendar, **keys)) for job in jobs)  # type: ignore[arg-type]  # by name
    return Change(what=what, jobs=tuple(changed), costs=costs)


def _changed_place(jobs: tuple[JobLoads, ...]) -> Iterator[Change]:
    """Yield what may be changed about the place, which is the same for all jobs."""
    calendar, printers_n = jobs[0].calendar, len(printers_of_all(jobs))
    if not calendar.unattended:
        yield _to(jobs, "allow plates to run unattended", _alone, unattended=True)
    for what, attended in _hours(calendar):
        more_h = (_week_min(attended) - _week_min(calendar.attended)) / 60.0
        if more_h > 0:
            yield _to(jobs, what, _said(f"{more_h:.1f} h more a week with somebody there"), attended=attended)
    if calendar.quiet:
        yield _to(jobs, "let printers run in quiet hours", _quiet_of(shop_of_all(jobs).quiet), quiet=())
    people_n = calendar.people_n or printers_n
    if people_n < printers_n:
        what = f"have {people_n + 1} people to clear beds instead of {people_n}"
        yield _to(jobs, what, _said("one more person in all attended hours"), people_n=people_n + 1)


def with_printer(job: JobLoads, like: Printer, more: Printer, people_n: int) -> JobLoads:
    """Return a job with one more printer like one of its own, and nobody more who clears its bed.

    Where printers have to print their coupon first, so has the new one: nobody has measured it.
    """
    calendar = replace(job.calendar, people_n=people_n)
    if like.name not in {printer.name for printer in job.printers}:
        return replace(job, calendar=calendar)
    loads = tuple(
        replace(load, takes_s={**load.takes_s, more.name: load.takes_s[like.name]}, ratio_by=_by(load, like, more))
        if like.name in load.takes_s
        else load
        for load in job.loads
    )
    gate = job.measured.get(like.name) or max(job.measured.values(), default=None)
    free = job.printers_free if gate is None else {**job.printers_free, more.name: gate}
    return replace(job, loads=loads, calendar=calendar, printers=(*job.printers, more), printers_free=free)


def _by(load: PlateLoad, like: Printer, more: Printer) -> dict[str, float]:
    """Return a plate's failure ratios with those of a printer for one like it."""
    return {**load.ratio_by, **({more.name: load.ratio_by[like.name]} if like.name in load.ratio_by else {})}


def _said(told: str) -> Costs:
    """Return costs that no schedule changes."""
    return lambda _runs, _shop: told


def _hours(calendar: Calendar) -> Iterator[tuple[str, tuple[Attended, ...]]]:
    """Yield longer hours of somebody being there; none where somebody always is."""
    if calendar.attended:
        yield f"stay {MORE_MIN // 60} h longer each time", tuple(_longer(window) for window in calendar.attended)
        yield "have somebody there on Saturdays and Sundays from 08:00 to 23:00", (*calendar.attended, WEEKEND)


def _longer(window: Attended) -> Attended:
    """Return a window that ends later; what does not go before midnight is put before its begin."""
    to_min = min(DAY_MIN, window.to_min + MORE_MIN)
    before = MORE_MIN - (to_min - window.to_min)
    return replace(window, from_min=max(0, window.from_min - before), to_min=to_min)


def _week_min(windows: Sequence[Attended]) -> int:
    """Return for how long in a week somebody is there; windows that overlap count once."""
    spans = joined((day * DAY_MIN + w.from_min, day * DAY_MIN + w.to_min) for w in windows for day in w.days)
    return sum(b - a for a, b in spans)


def _within_min(run: PrintRun, spans: Sequence[Span]) -> int:
    """Return for how many minutes of a run something holds."""
    return sum(b - a for a, b in clipped(spans, run.start_min, run.end_min))


def _alone(runs: Sequence[PrintRun], shop: Shop) -> str:
    """Say for how long plates run with nobody there."""
    alone = [run.end_min - run.start_min - _within_min(run, shop.attended) for run in runs]
    return f"{sum(alone) / 60:.1f} h of printing with nobody there, at most {max(alone) / 60:.1f} h for one plate"


def _quiet_of(quiet: Sequence[Span]) -> Costs:
    """Return what says for how long plates run in hours that are to be quiet."""
    return lambda runs, _: f"{sum(_within_min(run, quiet) for run in runs) / 60:.1f} h of printing in quiet hours"


def _unseen(runs: Sequence[PrintRun], _: Shop) -> str:
    """Say how much is printed before the first plate of its job is looked at, which tells a wrong scale."""
    blind = []
    for job in last_free_min(runs):
        mine = [run for run in runs if run.job == job]
        first = min(mine, key=lambda run: (run.free_min, run.plate))
        blind += [run for run in mine if run.start_min < first.free_min and run.plate != first.plate]
    hours = sum(run.end_min - run.start_min for run in blind) / 60
    return f"{len(blind)} plates of {hours:.1f} h start before the first one could show a mistake"


def _printer_of(name: str) -> Costs:
    """Return what says for how long another printer runs."""

    def told(runs: Sequence[PrintRun], _: Shop) -> str:
        hours = sum(run.end_min - run.start_min for run in runs if run.printer == name) / 60
        return f"a printer for {hours:.1f} h of printing (no profile gives its price), with the same people"

    return told


def _parted_of(whole: Sequence[PlateLoad], parted: Sequence[PlateLoad]) -> Costs:
    """Return what says how many more changes and hours of printing parted plates take."""
    hours = [sum(load.shortest_s for load in loads) / 3600 for loads in (whole, parted)]
    more_n = len(parted) - len(whole)
    plates = plural(more_n, "more plate")
    return _said(f"{plates} to change, {hours[1] - hours[0]:+.1f} h of printing")

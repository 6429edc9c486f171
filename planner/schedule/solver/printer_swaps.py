"""Swaps: the same calendar on printers that fail less, and in the order that shops prefer, where that costs nothing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import combinations

from planner.schedule.calendar.schedule_records import Key, PrintRun, Task, by_key
from planner.schedule.calendar.schedule_terms import Judge
from planner.schedule.solver.calendar_proof import proved


def with_fewer_losses(placed: Sequence[PrintRun], tasks: Sequence[Task], judge: Judge) -> tuple[PrintRun, ...]:
    """Return a calendar that is no worse by plan, with plates exchanged between printers while failures cost less.

    The search minds failures of the last plate only. Here those of all plates count: of a printer, its last end with
    what failures are expected to cost on all its plates, and on those that they wait for. Two printers exchange all
    their plates, or one plate goes to another; starts stay, no run gets longer, and every exchange is proved.
    """
    known, best = by_key(tasks), tuple(placed)
    while True:
        now, score = _worth(best, known), judge.score(best, known)
        better = (each for each in _exchanged(best, known, judge) if _worth(each, known) < now)
        held = (each for each in better if judge.score(each, known) <= score)
        other = next((each for each in held if not proved(each, tasks, judge.shop, judge.terms)), None)
        if other is None:
            return best
        best = other


def in_preferred_order(placed: Sequence[PrintRun], tasks: Sequence[Task], judge: Judge) -> tuple[PrintRun, ...]:
    """Return a calendar that is as good, in which plates of a low rank run before others of their job.

    Two plates of a job change places where each then runs as long as the other did; every exchange is proved.
    """
    known, best = by_key(tasks), tuple(placed)
    while True:
        score = judge.score(best, known)
        swapped = (each for each in _changed_places(best, known) if judge.score(each, known) <= score)
        other = next((each for each in swapped if not proved(each, tasks, judge.shop, judge.terms)), None)
        if other is None:
            return best
        best = other


def _changed_places(placed: tuple[PrintRun, ...], known: Mapping[Key, Task]) -> Iterator[tuple[PrintRun, ...]]:
    """Yield calendars in which a plate of a higher rank gives its place to a later one of a lower rank."""
    for one, other in combinations(sorted(placed, key=lambda run: (run.start_min, run.key)), 2):
        first, then = known[one.key], known[other.key]
        if one.job != other.job or first.rank <= then.rank or one.start_min == other.start_min:
            continue
        alike = first.takes_min.get(other.printer) == other.end_min - other.start_min
        if alike and then.takes_min.get(one.printer) == one.end_min - one.start_min:
            places = {one.key: other.plate, other.key: one.plate}
            yield tuple(replace(run, plate=places.get(run.key, run.plate)) for run in placed)


def _worth(placed: Sequence[PrintRun], known: Mapping[Key, Task]) -> tuple[int, int]:
    """Return the last end with all failures before it, and the minutes that failures cost over all plates."""
    lost = {run.key: known[run.key].lost_min.get(run.printer, 0) for run in placed}
    ends: dict[str, int] = {}
    before: dict[str, set[Key]] = {}
    for run in placed:
        ends[run.printer] = max(ends.get(run.printer, 0), run.end_min)
        before.setdefault(run.printer, set()).update((run.key, *known[run.key].after_keys))
    late = max((end + sum(lost.get(key, 0) for key in before[p]) for p, end in ends.items()), default=0)
    return late, sum(lost.values())


def _exchanged(placed: tuple[PrintRun, ...], known: Mapping[Key, Task], judge: Judge) -> Iterator[tuple[PrintRun, ...]]:
    """Yield calendars with the plates of two printers exchanged, then with one plate on another printer."""
    change_min = judge.shop.change_min
    alike = [(p, q) for p, q in combinations(sorted(change_min), 2) if change_min[p] == change_min[q]]
    for p, q in alike:
        yield from _with(placed, {run.key: {p: q, q: p}.get(run.printer, run.printer) for run in placed}, known)
    for run in placed:
        for p, q in alike:
            if run.printer in (p, q):
                yield from _with(placed, {run.key: q if run.printer == p else p}, known)


def _with(
    placed: tuple[PrintRun, ...], printers: Mapping[Key, str], known: Mapping[Key, Task]
) -> Iterator[tuple[PrintRun, ...]]:
    """Yield a calendar with some plates on other printers; nothing where one of them does not run there as soon."""
    moved = []
    for run in placed:
        to = printers.get(run.key, run.printer)
        takes = known[run.key].takes_min.get(to)
        if takes is None or takes > run.end_min - run.start_min:
            return
        moved.append(replace(run, printer=to, end_min=run.start_min + takes))
    yield tuple(moved)

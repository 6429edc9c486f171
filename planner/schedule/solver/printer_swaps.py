"""Steadier: the same calendar on printers that fail less, where the minutes allow it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import combinations

from planner.schedule.calendar.task import Placed, Shop, Task
from planner.schedule.solver.calendar_proof import proved


def steadier(placed: Sequence[Placed], tasks: Sequence[Task], shop: Shop) -> tuple[Placed, ...]:
    """Return a calendar that ends no later by plan, with plates exchanged between printers while failures cost less.

    The search minds failures of the last plate only. Here those of all plates count: of a printer, its last end with
    what failures are expected to cost on all its plates, and on those that they wait for. Two printers exchange all
    their plates, or one plate goes to another; starts stay, no run gets longer, and every exchange is proved.
    """
    known = {task.plate: task for task in tasks}
    best = tuple(placed)
    while True:
        now = _worth(best, known)
        better = (each for each in _exchanged(best, known, shop) if _worth(each, known) < now)
        other = next((each for each in better if not proved(each, tasks, shop)), None)
        if other is None:
            return best
        best = other


def _worth(placed: Sequence[Placed], known: Mapping[int, Task]) -> tuple[int, int]:
    """Return the last end with all failures before it, and the minutes that failures cost over all plates."""
    lost = {run.plate: known[run.plate].lost_min.get(run.printer, 0) for run in placed}
    ends: dict[str, int] = {}
    before: dict[str, set[int]] = {}
    for run in placed:
        ends[run.printer] = max(ends.get(run.printer, 0), run.end)
        before.setdefault(run.printer, set()).update((run.plate, *known[run.plate].after))
    late = max((end + sum(lost.get(plate, 0) for plate in before[p]) for p, end in ends.items()), default=0)
    return late, sum(lost.values())


def _exchanged(placed: tuple[Placed, ...], known: Mapping[int, Task], shop: Shop) -> Iterator[tuple[Placed, ...]]:
    """Yield calendars with the plates of two printers exchanged, then with one plate on another printer."""
    alike = [(p, q) for p, q in combinations(sorted(shop.change_min), 2) if shop.change_min[p] == shop.change_min[q]]
    for p, q in alike:
        yield from _with(placed, {run.plate: {p: q, q: p}.get(run.printer, run.printer) for run in placed}, known)
    for run in placed:
        for p, q in alike:
            if run.printer in (p, q):
                yield from _with(placed, {run.plate: q if run.printer == p else p}, known)


def _with(
    placed: tuple[Placed, ...], printers: Mapping[int, str], known: Mapping[int, Task]
) -> Iterator[tuple[Placed, ...]]:
    """Yield a calendar with some plates on other printers; nothing where one of them does not run there as soon."""
    moved = []
    for run in placed:
        to = printers.get(run.plate, run.printer)
        takes = known[run.plate].takes_min.get(to)
        if takes is None or takes > run.end - run.start:
            return
        moved.append(replace(run, printer=to, end=run.start + takes))
    yield tuple(moved)

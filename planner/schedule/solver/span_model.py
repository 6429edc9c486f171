"""Spread: which plate starts in which attended span on which printer, without a thought for the minute.

A relaxation of the calendar: what starts in a span fits it, and a printer works one thing after the other. Where it has
no answer the calendar has none; where it has, the minutes are then found for it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Any

from planner.schedule.calendar.allowed_starts import windows_of
from planner.schedule.calendar.schedule_records import Key, Shop, Task, by_key
from planner.schedule.solver.branching import NODES_N, none_by_branching

Spread = Mapping[Key, tuple[str, int]]
"""By plate: its printer, and the number of the attended span that it starts in."""
Within = dict[tuple[Key, str, int], Any]
CROWD_N = 4
"""Up to so many plates of one span are counted, beside the sum of their minutes."""
Row = tuple[int, Any, int, int]
"""Of a plate in a span on a printer: minutes with the change, literal, first minute, what failures cost."""


class SpreadModel:
    """The relaxation of one problem for a finish of at most ``limit``.

    ``spare_min`` is left free in every span, for what the relaxation does not see: hands that are elsewhere. With any
    of it, having no answer proves nothing.
    """

    def __init__(self, tasks: Sequence[Task], shop: Shop, limit: int, spare_min: int = 0) -> None:
        from ortools.sat.python import cp_model  # noqa: PLC0415  half a second to load, for those who need it

        self.cp, self.model, self.tasks, self.shop, self.limit = cp_model, cp_model.CpModel(), tasks, shop, limit
        self.spare_min = spare_min
        self.known = by_key(tasks)
        self.spans = [span for span in shop.attended if span[0] < limit]
        self.within: Within = {}
        self.open = min([self._add(task) for task in tasks], default=True)
        if self.open:
            self._fill()
            self._wait()
            self._stay()

    def _add(self, task: Task) -> bool:
        """Add a literal for every printer and span that a plate may start in; say whether there is any."""
        for printer in task.takes_min:
            starts = windows_of(task, printer, self.shop, self.limit)
            for index, span in enumerate(self.spans):
                if any(max(a, span[0]) <= min(b, span[1] - 1) for a, b in starts):
                    literal = self.model.new_bool_var(f"y{task.key}{printer}{index}")
                    self.within[task.key, printer, index] = literal
        here = [literal for (key, _, _), literal in self.within.items() if key == task.key]
        if here:
            self.model.add_exactly_one(here)
        return bool(here)

    def _fill(self) -> None:
        """Let what starts in a span on a printer fit it; where plates run on, let them push what comes after.

        Attended, a bed that is not cleared within the span of its plate is cleared first thing in the next one.
        """
        grouped = defaultdict(list)
        early = {task.key: earliest_of(task, self.tasks, self.shop) for task in self.tasks}
        for (key, printer, index), literal in self.within.items():
            takes = self.known[key].takes_min[printer] + self.shop.change_min[printer]
            lost = self.known[key].lost_min.get(printer, 0)
            grouped[printer, index].append((takes, literal, early[key], lost))
        for printer, change in self.shop.change_min.items():
            before: Any = None  # unattended: when the printer is free, in which span that was, whether too late for it
            left: Any = 0  # attended: whether a bed is left to be cleared
            for index, span in enumerate(self.spans):
                rows = grouped[printer, index]
                if rows and self.shop.unattended:
                    before = self._run_on(rows, index, before, change)
                if not rows or self.shop.unattended:
                    continue
                leaves = self.model.new_bool_var(f"l{printer}{index}")
                room = min(span[1], self.limit) - span[0] - self.spare_min
                self.model.add(sum(n * y for n, y, *_ in rows) + change * left <= room + change * leaves)
                late = _since(rows, span[0])
                waiting = sum(n * y for n, y, first, *_ in rows if first > span[0])
                if late > span[0]:
                    self.model.add(waiting <= max(0, room - (late - span[0])) + change * leaves)
                for most in range(1, CROWD_N + 1):
                    self.model.add(sum(y for n, y, *_ in rows if n * most > room + change) <= most - 1)
                left = leaves

    def _run_on(self, rows: Sequence[Row], index: int, before: Any, change: int) -> Any:
        """Let the last plate of a span run past it; a bed left overnight is cleared first thing in the next span."""
        m, (low, high) = self.model, self.spans[index]
        load, some, late = sum(n * y for n, y, *_ in rows), m.new_bool_var(""), m.new_bool_var("")
        free = m.new_int_var(0, self.limit + change, "")
        lasts = [m.new_bool_var("") for _ in rows]
        for (_, literal, *_), last in zip(rows, lasts, strict=True):
            m.add_implication(literal, some)
            m.add_implication(last, literal)
        m.add(sum(lasts) == some)
        run_on = sum(row[0] * last for row, last in zip(rows, lasts, strict=True))
        m.add(load - run_on <= (high - 1 - low - self.spare_min) * some)
        for most in range(
            1, CROWD_N + 1
        ):  # of plates longer than a share of the span, so many start well before its end
            long = [(y, last) for (n, y, *_), last in zip(rows, lasts, strict=True) if n * most > high - 1 - low]
            m.add(sum(y - last for y, last in long) <= most - 1)
        since = _since(rows, low)
        if since > low:
            waiting = sum(n * y for n, y, first, *_ in rows if first > low)
            m.add(waiting - run_on <= max(0, high - 1 - since - self.spare_min))
            for _, literal, first, *_ in rows:
                if first > low:
                    m.add(free >= since + waiting).only_enforce_if(literal)
        m.add(free <= high - 1 + run_on).only_enforce_if(some)
        m.add(free <= high).only_enforce_if(some, ~late)
        m.add(free >= low * some + load)
        # the same without the minute, for the engine that branches on literals alone
        m.add(load <= high - low + max(row[0] for row in rows) * late)
        m.add(load + sum(row[3] * last for row, last in zip(rows, lasts, strict=True)) <= self.limit + change - low)
        m.add(free <= self.limit + change - sum(row[3] * last for row, last in zip(rows, lasts, strict=True)))
        if before is not None:
            earlier, at, left = before
            m.add(free >= earlier + load)
            if at == index - 1:
                m.add(load - run_on + change * left <= max(change, high - 1 - low))
                m.add(load + change * left <= self.limit + change - low)
                m.add(free >= low + load + change).only_enforce_if(some, left)
        return free, index, late

    def _wait(self) -> None:
        """Let no plate start in an earlier span than those it waits for."""
        for first in sorted({key for task in self.tasks for key in task.after_keys if key in self.known}):
            self._turn({first}, {task.key for task in self.tasks if first in task.after_keys})

    def _turn(self, early: set[Key], late: set[Key]) -> None:
        """Let some plates start in no later span than some others, on whatever printer."""
        since = [self.model.new_bool_var("") for _ in range(len(self.spans) + 1)]
        for one, other in pairwise(since):
            self.model.add_implication(other, one)
        for (key, _, index), literal in self.within.items():
            if key in early:
                self.model.add_implication(literal, since[index])
            elif key in late:
                self.model.add_implication(literal, ~since[index + 1])

    def _stay(self) -> None:
        """Keep plates that stay together on one printer."""
        for one, other in pairwise(sorted((t for t in self.tasks if t.stay), key=lambda t: (t.job, t.stay, t.plate))):
            for printer in self.shop.change_min if (one.job, one.stay) == (other.job, other.stay) else ():
                here, there = (
                    sum(y for (i, p, _), y in self.within.items() if (i, p) == (task.key, printer))
                    for task in (one, other)
                )
                self.model.add(here == there)

    def never(self, effort: float, seed: int, nodes_n: int = NODES_N) -> bool:
        """Return whether two engines, one after the other, prove that there is no spread; False: not known."""
        if not self.open:
            return True
        solver = self.cp.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = seed
        solver.parameters.symmetry_level = 3
        solver.parameters.max_deterministic_time = effort
        status = solver.solve(self.model)
        return status == self.cp.INFEASIBLE or (
            status == self.cp.UNKNOWN and nodes_n > 0 and none_by_branching(self.model, nodes_n)
        )

    def found(
        self, effort: float, seed: int, *, early: Spread | None = None, quick: bool = False
    ) -> tuple[Spread, bool]:
        """Return a spread (empty: none in time), and whether it is sure that there is none.

        With ``early``, a spread known to do, one is looked for in which plates start in early spans;
        ``quick``: one that is found fast or not at all.
        """
        if not self.open:
            return {}, True
        if early is not None:
            for (key, printer, index), literal in self.within.items():
                self.model.add_hint(literal, int(early[key] == (printer, index)))
            self.model.minimize(sum(self.spans[index][0] * y for (_, _, index), y in self.within.items()))
        # without the linear relaxation a spread is found fastest, with some of it the lack of one is proved
        levels = ((2, 1.0),) if early is not None else ((0, 0.3),) if quick else ((0, 0.3), (1, 0.7))
        for level, share in levels:
            solver = self.cp.CpSolver()
            solver.parameters.num_workers = 1
            solver.parameters.random_seed = seed
            solver.parameters.linearization_level = level
            solver.parameters.symmetry_level = 3
            solver.parameters.max_deterministic_time = share * effort
            status = solver.solve(self.model)
            if status == self.cp.INFEASIBLE:
                return {}, True
            if status in (self.cp.OPTIMAL, self.cp.FEASIBLE):
                return {key[0]: (key[1], key[2]) for key, y in self.within.items() if solver.boolean_value(y)}, False
        return {}, False


def _since(rows: Sequence[Row], low: int) -> int:
    """Return the first minute after a span's begin at which plates that wait for another may start; else its begin."""
    return min((first for _, _, first, *_ in rows if first > low), default=low)


def earliest_of(task: Task, tasks: Sequence[Task], shop: Shop) -> int:
    """Return a minute before which a plate cannot start: its job's begin, or others must be cleared before it."""
    first = task.not_before_min
    for other in tasks:
        if other.key in task.after_keys:
            times = [(windows_of(other, p, shop), n + shop.change_min[p]) for p, n in other.takes_min.items()]
            first = max(first, min(starts[0][0] + n for starts, n in times if starts))
    return first

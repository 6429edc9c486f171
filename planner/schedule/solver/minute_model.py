"""Minutes: the calendar as a constraint problem, exact to the minute."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from planner.schedule.calendar.allowed_starts import clears_of, starts_of
from planner.schedule.calendar.task import Placed, Shop, Task
from planner.schedule.calendar.weekly_spans import Span, first_from
from planner.schedule.solver.span_model import Spread

LONGEST_GAP_MIN = 14 * 24 * 60
"""Beds may wait this long to be cleared beyond the last end, a holiday without anybody there."""


class MinuteModel:
    """The model of one problem for a finish of at most ``limit``; a spread fixes printers and spans."""

    def __init__(self, tasks: Sequence[Task], shop: Shop, limit: int, spread: Spread | None = None) -> None:
        from ortools.sat.python import cp_model  # noqa: PLC0415  half a second to load, for those who need it

        self.cp, self.model, self.tasks, self.shop, self.limit = cp_model, cp_model.CpModel(), tasks, shop, limit
        self.spread = spread
        last = max(first_from(clears_of(shop, change), limit) or limit for change in shop.change_min.values())
        self.clear_most = last + sum(shop.change_min.values()) * len(tasks) + LONGEST_GAP_MIN
        self.on: dict[tuple[int, str], Any] = {}
        self.starts: dict[int, Any] = {}
        self.ends: dict[int, Any] = {}
        self.clears: dict[int, Any] = {}
        self.frees: dict[int, Any] = {}
        self.finish = self.model.new_int_var(0, limit, "finish")
        for task in tasks:
            self._add(task)
        self._keep_apart()
        self._keep_order()

    def _add(self, task: Task) -> None:
        """Add a task: one printer, its start, its end, the clearing of its bed."""
        m, i = self.model, task.plate
        start, end = m.new_int_var(0, self.limit, f"s{i}"), m.new_int_var(0, self.limit, f"e{i}")
        clear, free = m.new_int_var(0, self.clear_most, f"c{i}"), m.new_int_var(0, 2 * self.clear_most, f"f{i}")
        for printer, takes in task.takes_min.items():
            starts = self._starts(task, printer)
            if not starts:
                continue
            on, change = m.new_bool_var(f"x{i}{printer}"), self.shop.change_min[printer]
            m.add_linear_expression_in_domain(start, self._domain(starts)).only_enforce_if(on)
            m.add(end == start + takes).only_enforce_if(on)
            m.add(self.finish >= end + task.lost_min.get(printer, 0)).only_enforce_if(on)
            clears = [(a, min(b, self.clear_most)) for a, b in clears_of(self.shop, change) if a <= self.clear_most]
            m.add_linear_expression_in_domain(clear, self._domain(clears)).only_enforce_if(on)
            m.add(free == clear + change).only_enforce_if(on)
            self.on[i, printer] = on
        m.add_exactly_one([on for (plate, _), on in self.on.items() if plate == i])
        m.add(clear >= end)
        self.starts[i], self.ends[i], self.clears[i], self.frees[i] = start, end, clear, free

    def _starts(self, task: Task, printer: str) -> list[Span]:
        """Return the starts of a task on a printer within the limit, and in its span where a spread is given."""
        takes = task.takes_min[printer]
        most = self.limit - takes - task.lost_min.get(printer, 0)
        least = task.not_before_min
        starts = [
            (max(a, least), min(b, most))
            for a, b in starts_of(self.shop, takes, watched=task.watched)
            if max(a, least) <= min(b, most)
        ]
        if self.spread is None:
            return starts
        name, index = self.spread[task.plate]
        if name != printer:
            return []
        low, high = self.shop.attended[index]
        return [(max(a, low), min(b, high - 1)) for a, b in starts if max(a, low) <= min(b, high - 1)]

    def _domain(self, spans: Sequence[Span]) -> Any:
        """Return spans with both ends meant as a domain."""
        return self.cp.Domain.from_intervals([list(span) for span in spans])

    def _keep_apart(self) -> None:
        """Let no printer run two plates at once, nor people clear more beds than there are people."""
        busy, hands = defaultdict(list), []
        for (plate, printer), on in self.on.items():
            size = self.model.new_int_var(0, 2 * self.clear_most, f"b{plate}{printer}")
            name, change = f"{plate}{printer}", self.shop.change_min[printer]
            run = self.model.new_optional_interval_var(self.starts[plate], size, self.frees[plate], on, f"r{name}")
            busy[printer].append(run)
            clear = self.model.new_optional_fixed_size_interval_var(self.clears[plate], change, on, f"h{name}")
            hands.append(clear)
        for runs in busy.values():
            self.model.add_no_overlap(runs)
        if len(busy) > self.shop.people_n:
            self.model.add_cumulative(hands, [1] * len(hands), self.shop.people_n)

    def _keep_order(self) -> None:
        """Keep ranks, what waits for what, and what stays on one printer."""
        ranks = {task.plate: task.rank for task in self.tasks}
        for low in sorted(set(ranks.values()))[:-1]:
            for printer in self.shop.change_min:
                turn = self.model.new_int_var(0, self.limit, f"turn{low}{printer}")
                for plate, rank in ranks.items():
                    if (plate, printer) in self.on:
                        side = self.starts[plate] <= turn if rank <= low else self.starts[plate] >= turn
                        self.model.add(side).only_enforce_if(self.on[plate, printer])
        for task in self.tasks:
            for plate in task.after:
                if plate in self.frees:
                    self.model.add(self.starts[task.plate] >= self.frees[plate])
        for one, other in pairwise(sorted((t for t in self.tasks if t.stay), key=lambda t: (t.stay, t.plate))):
            for printer in self.shop.change_min if one.stay == other.stay else ():
                self.model.add(self.on.get((one.plate, printer), 0) == self.on.get((other.plate, printer), 0))

    def tidied(self, placed: Sequence[Placed], effort: float, seed: int) -> tuple[Placed, ...]:
        """Return a calendar with every bed cleared as soon as hands allow; starts stay."""
        for run in placed:
            self.model.add(self.starts[run.plate] == run.start)
            self.model.add(self.on[run.plate, run.printer] == 1)
        self.model.minimize(sum(self.clears.values()))
        return self._searched(effort, seed, placed)[0] or tuple(placed)

    def found(
        self, effort: float, seed: int, hint: Sequence[Placed], *, ends: bool = False
    ) -> tuple[tuple[Placed, ...], int]:
        """Return the calendar of the earliest finish found, or of the earliest ends (empty: none), and the bound."""
        self.model.minimize(sum(self.ends.values()) if ends else self.finish)
        return self._searched(effort, seed, hint)

    def _searched(self, effort: float, seed: int, hint: Sequence[Placed]) -> tuple[tuple[Placed, ...], int]:
        """Search from a known calendar on."""
        self.model.clear_hints()  # type: ignore[no-untyped-call]  # the engine's own binding
        for run in hint:
            self.model.add_hint(self.starts[run.plate], run.start)
            self.model.add_hint(self.ends[run.plate], run.end)
            self.model.add_hint(self.clears[run.plate], run.clear)
            self.model.add_hint(self.frees[run.plate], run.free)
            for (plate, printer), on in self.on.items():
                if plate == run.plate:
                    self.model.add_hint(on, int(printer == run.printer))
        solver = self.cp.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = seed
        solver.parameters.max_deterministic_time = effort
        status = solver.solve(self.model)
        if status not in (self.cp.OPTIMAL, self.cp.FEASIBLE):
            known = status == self.cp.UNKNOWN and math.isfinite(solver.best_objective_bound)
            return (), max(0, math.ceil(solver.best_objective_bound - 1e-6)) if known else 0
        placed = []
        for task in self.tasks:
            i = task.plate
            printer = next(p for p in task.takes_min if (i, p) in self.on and solver.boolean_value(self.on[i, p]))
            start, end = solver.value(self.starts[i]), solver.value(self.ends[i])
            clear, free = solver.value(self.clears[i]), solver.value(self.frees[i])
            placed.append(Placed(plate=i, printer=printer, start=start, end=end, clear=clear, free=free))
        return tuple(placed), math.ceil(solver.best_objective_bound - 1e-6)

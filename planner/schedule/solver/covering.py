"""Covering: a stronger relaxation for printers that run on unattended, of whole fillings of attended spans.

Between two starts on a printer its bed is cleared, so all plates that start in a span but the last fit it one after
the other: a *filling*. The last one runs on. The relaxation chooses a filling and a last plate for every printer and
span, so that every plate is chosen somewhere: a set covering, as in cutting stock (Gilmore and Gomory 1961). Its linear
form is strong, because a share of a filling is weaker than a share of each of its plates. Hands that are elsewhere and
plates that last into the next span are not seen: where there is no covering there is no schedule, but not the other
way round.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from planner.schedule.calendar.allowed_starts import windows_of
from planner.schedule.calendar.schedule_records import Shop, Task
from planner.schedule.calendar.weekly_spans import Span
from planner.schedule.solver.branching import INFEASIBLE
from planner.schedule.solver.fillings import Filling, Item, TooMany, fillings
from planner.schedule.solver.span_model import Spread, earliest_of

FILLINGS_N = 12_000
"""More fillings than this are not asked for: long spans and short plates have more than anybody can write down."""
SURE = 1e-4
"""By so many plates a linear form must come short before it counts: far more than its engine's tolerance of 1e-7."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A choice on a printer in a span: a filling, a last plate (``last``), or both where the limit ends the span."""

    printer: str
    index: int
    items: Filling
    last: bool
    whole: bool = False


class Covering:
    """The relaxation of one problem for a finish of at most ``limit``; ``known`` is False where it is too large.

    ``spare_min`` is left free in every span; with any of it, having no answer proves nothing.
    """

    def __init__(self, tasks: Sequence[Task], shop: Shop, limit: int, spare_min: int = 0) -> None:
        self.tasks, self.shop, self.limit, self.spare_min = tasks, shop, limit, spare_min
        self.spans = [span for span in shop.attended if span[0] < limit]
        self.early = {task.key: earliest_of(task, tasks, shop) for task in tasks}
        self.columns: list[Column] = []
        self.size = 0
        self.at: list[tuple[int, int, float]] = []
        self.rows: dict[object, int] = {}
        self.most: list[float] = []
        self.known = shop.unattended
        try:
            for printer in shop.change_min if self.known else ():
                for index in range(len(self.spans)):
                    self._choose(printer, index)
        except TooMany:
            self.known = False
        if self.known:
            self.size = len(self.columns)
            self._cover()
            self._clear()
            self._end()

    def _choose(self, printer: str, index: int) -> None:
        """Add the fillings and the last plates of a printer in a span."""
        low, high = self.spans[index]
        change, items = self.shop.change_min[printer], []
        for task in self.tasks:
            if printer not in task.takes_min:
                continue
            takes, lost = task.takes_min[printer], task.lost_min.get(printer, 0)
            first = self._first(task, printer, (max(low, self.early[task.key]), high - 1))
            if first is not None:
                items.append(Item(key=task.key, takes_min=takes + change, first=first, lost_min=lost))
        room = FILLINGS_N - len(self.columns)
        if high > self.limit:  # what starts here ends here: fillings with their last plate
            for some in fillings(items, self.limit + change - self.spare_min, room):
                ends = min(item.lost_min for item in some)
                takes = sum(item.takes_min for item in some)
                if min(item.first for item in some) + takes + ends <= self.limit + change:
                    self.columns.append(Column(printer=printer, index=index, items=some, last=True, whole=True))
            return
        for some in fillings(items, high - 1 - self.spare_min, room):
            self.columns.append(Column(printer=printer, index=index, items=some, last=False))
        for item in items:
            self.columns.append(Column(printer=printer, index=index, items=(item,), last=True))

    def _first(self, task: Task, printer: str, within: Span) -> int | None:
        """Return the first minute within some at which a plate may start and end by the limit; None: none."""
        for a, b in windows_of(task, printer, self.shop, self.limit):
            if max(a, within[0]) <= min(b, within[1]):
                return max(a, within[0])
        return None

    def _add(self, row: object, most: float, column: int, factor: float) -> None:
        """Add a factor to a row, a sum that is at most something."""
        if row not in self.rows:
            self.rows[row] = len(self.most)
            self.most.append(most)
        self.at.append((self.rows[row], column, factor))

    def _cover(self) -> None:
        """Choose every plate somewhere, one filling and one last plate at most a span, no filling without a last."""
        for task in self.tasks:
            self.rows["plate", task.key] = len(self.most)
            self.most.append(-1.0)
        for number, column in enumerate(self.columns):
            where = column.printer, column.index
            for item in column.items:
                self._add(("plate", item.key), -1.0, number, -1.0)
            self._add(("last" if column.last else "filling", where), 1.0, number, 1.0)
            if not column.whole:
                self._add(("both", where), 0.0, number, -1.0 if column.last else 1.0)
        self._stay()

    def _stay(self) -> None:
        """Keep plates that stay together on one printer."""
        for one, other in pairwise(sorted((t for t in self.tasks if t.stay), key=lambda t: (t.job, t.stay, t.plate))):
            if (one.job, one.stay) != (other.job, other.stay):
                continue
            for number, column in enumerate(self.columns):
                keys = [item.key for item in column.items]
                factor = float(keys.count(one.key) - keys.count(other.key))
                if factor:
                    self._add(("stay", one.key, column.printer, 1), 0.0, number, factor)
                    self._add(("stay", one.key, column.printer, -1), 0.0, number, -factor)

    def _clear(self) -> None:
        """Clear a bed that is left overnight first thing in the next span."""
        mine = defaultdict(list)
        for number, column in enumerate(self.columns):
            mine[column.printer, column.index].append((number, column))
        for printer, change in self.shop.change_min.items():
            for index in range(1, len(self.spans)):
                before, here = mine[printer, index - 1], mine[printer, index]
                if not before or not here:
                    continue
                left, high = self.size, self.spans[index - 1][1]
                self.size += 1
                longest = max(item.takes_min for _, column in before for item in column.items)
                for begin in sorted({item.first for _, column in before for item in column.items}):
                    row = "load", printer, index, begin
                    for number, column in before:
                        takes = sum(item.takes_min for item in column.items if item.first >= begin)
                        if takes:
                            self._add(row, float(high - begin), number, float(takes))
                        if column.last and takes > high - begin:
                            self._add(("alone", printer, index, begin), 0.0, number, 1.0)
                    # nonlast plates fit the span, so that one bed left is worth the longest plate at most
                    self._add(row, float(high - begin), left, -float(longest))
                    self._add(("alone", printer, index, begin), 0.0, left, -1.0)
                self._add(("room", printer, index), 1.0, left, 1.0)
                for number, column in here:
                    if self._crowded(column, change):
                        self._add(("room", printer, index), 1.0, number, 1.0)

    def _end(self) -> None:
        """Let no last plate begin so late, after the filling before it, that it ends beyond the limit."""
        grouped = defaultdict(list)
        for number, column in enumerate(self.columns):
            if not column.whole and self._latest(column) < self.spans[column.index][1] - 1:
                grouped[column.printer, column.index].append((self._latest(column), number))
        for number, column in enumerate(self.columns):
            if column.last or (column.printer, column.index) not in grouped:
                continue
            done = min(item.first for item in column.items) + sum(item.takes_min for item in column.items)
            lasts = grouped[column.printer, column.index]
            for latest in {late for late, _ in lasts if late < done}:
                self._add(("end", column.printer, column.index, latest), 1.0, number, 1.0)
        for (printer, index), lasts in grouped.items():
            for latest in {late for late, _ in lasts}:
                row = "end", printer, index, latest
                for late, number in lasts if row in self.rows else ():
                    if late <= latest:
                        self._add(row, 1.0, number, 1.0)

    def _latest(self, column: Column) -> int:
        """Return when a last plate must begin for its end to lie within the limit; the limit for a filling."""
        if not column.last:
            return self.limit
        item, change = column.items[0], self.shop.change_min[column.printer]
        return self.limit - (item.takes_min - change) - item.lost_min

    def _crowded(self, column: Column, change: int) -> bool:
        """Return whether a filling leaves no room for clearing a bed first."""
        low, high = self.spans[column.index]
        takes = sum(item.takes_min for item in column.items)
        if column.whole:
            ends = min(item.lost_min for item in column.items)
            return low + change + takes + ends > self.limit + change
        return not column.last and low + change + takes > high - 1

    def never(self) -> bool:
        """Return whether already the linear form leaves a share of some plate out; False where it is too large."""
        from scipy.optimize import linprog  # noqa: PLC0415  loaded by those who need it
        from scipy.sparse import hstack  # noqa: PLC0415

        if not self.known:
            return False
        short = self._matrix([(self.rows["plate", task.key], k, -1.0) for k, task in enumerate(self.tasks)])
        factors = np.concatenate([np.zeros(self.size), np.ones(len(self.tasks))])
        if not self.columns:
            return True
        rows = hstack([self._matrix(self.at, self.size), short]).tocsr()
        found = linprog(factors, A_ub=rows, b_ub=self.most, bounds=(0, 1), method="highs-ds")
        return bool(found.status == 0 and found.fun > SURE)

    def found(self, nodes_n: int) -> tuple[Spread, bool]:
        """Return a spread (empty: none after so many nodes), and whether it is sure that there is none."""
        from scipy.optimize import Bounds, LinearConstraint, milp  # noqa: PLC0415  loaded by those who need it

        if not self.known or not self.columns:
            return {}, self.known
        found = milp(
            np.zeros(self.size),
            constraints=LinearConstraint(self._matrix(self.at, self.size), -np.inf, self.most),
            bounds=Bounds(0, 1),
            integrality=np.ones(self.size),
            options={"node_limit": nodes_n},
        )
        if found.x is None:
            return {}, bool(found.status == INFEASIBLE)
        chosen = [column for number, column in enumerate(self.columns) if found.x[number] > 0.5]
        return {item.key: (c.printer, c.index) for c in reversed(chosen) for item in c.items}, False

    def _matrix(self, at: Sequence[tuple[int, int, float]], columns_n: int | None = None) -> object:
        """Return rows as a sparse matrix."""
        from scipy.sparse import csr_matrix  # noqa: PLC0415  loaded by those who need it

        number, column, factor = (np.array(each) for each in zip(*at, strict=True))
        return csr_matrix((factor, (number, column)), shape=(len(self.most), columns_n or len(at)))

"""Minutes: the calendar as a constraint problem, exact to the minute."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Any

from planner.schedule.calendar.allowed_starts import clears_of, windows_of
from planner.schedule.calendar.ready_pieces import ReadyPiece
from planner.schedule.calendar.schedule_records import Key, PrintRun, Task, on_one_printer
from planner.schedule.calendar.schedule_terms import Aim, Judge
from planner.schedule.calendar.weekly_spans import Span, first_from
from planner.schedule.solver.span_model import Spread

LATE_DAYS_N = 60
"""So many days more than it has to be, a job may be late at most in what is searched."""
DAY_MIN = 24 * 60
LONGEST_GAP_MIN = 14 * DAY_MIN
"""Beds may wait this long to be cleared beyond the last end, a holiday without anybody there."""


class MinuteModel:
    """The model of one problem for a finish of at most ``limit``.

    A spread says on which printer and in which span each plate starts; ``fixed`` runs stay as they are.
    """

    def __init__(
        self,
        tasks: Sequence[Task],
        judge: Judge,
        limit: int,
        spread: Spread | None = None,
        fixed: Mapping[Key, PrintRun] | None = None,
    ) -> None:
        from ortools.sat.python import cp_model  # noqa: PLC0415  half a second to load, for those who need it

        self.cp, self.model, self.tasks, self.limit = cp_model, cp_model.CpModel(), tasks, limit
        self.judge, self.shop, self.spread, self.fixed = judge, judge.shop, spread, fixed or {}
        last = max(first_from(clears_of(self.shop, name), limit) or limit for name in self.shop.change_min)
        self.clear_most = last + sum(self.shop.change_min.values()) * len(tasks) + LONGEST_GAP_MIN
        self.on: dict[tuple[Key, str], Any] = {}
        self.starts: dict[Key, Any] = {}
        self.ends: dict[Key, Any] = {}
        self.clears: dict[Key, Any] = {}
        self.frees: dict[Key, Any] = {}
        self.lasts: dict[int, Any] = {}
        self.finish = self.model.new_int_var(0, limit, "finish")
        for task in tasks:
            self._add(task)
        self._keep_apart()
        self._keep_order()
        self._keep_together()
        for job in sorted({task.job for task in tasks}):
            mine = [task for task in tasks if task.job == job]
            if judge.terms_of(job).first_article and not on_one_printer(mine):
                self._keep_first([task.key for task in mine])

    def _add(self, task: Task) -> None:
        """Add a task: one printer, its start, its end, the clearing of its bed."""
        m, i = self.model, task.key
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
            m.add_linear_expression_in_domain(clear, self._domain(self._clears(task, printer))).only_enforce_if(on)
            m.add(free == clear + change).only_enforce_if(on)
            self.on[i, printer] = on
        m.add_exactly_one([on for (key, _), on in self.on.items() if key == i])
        m.add(clear >= end)
        if task.cleared_by_min is not None:
            m.add(free <= task.cleared_by_min)
        self.starts[i], self.ends[i], self.clears[i], self.frees[i] = start, end, clear, free

    def _starts(self, task: Task, printer: str) -> list[Span]:
        """Return the starts of a task on a printer within the limit, and in its span where a spread is given."""
        if task.key in self.fixed:
            run = self.fixed[task.key]
            return [(run.start_min, run.start_min)] if run.printer == printer else []
        starts = windows_of(task, printer, self.shop, self.limit)
        if self.spread is None:
            return starts
        name, index = self.spread[task.key]
        if name != printer:
            return []
        low, high = self.shop.attended[index]
        return [(max(a, low), min(b, high - 1)) for a, b in starts if max(a, low) <= min(b, high - 1)]

    def _clears(self, task: Task, printer: str) -> list[Span]:
        """Return when the bed of a task may be cleared."""
        if task.key in self.fixed:
            return [(self.fixed[task.key].clear_min,) * 2]
        return [(a, min(b, self.clear_most)) for a, b in clears_of(self.shop, printer) if a <= self.clear_most]

    def _domain(self, spans: Sequence[Span]) -> Any:
        """Return spans with both ends included as a domain."""
        return self.cp.Domain.from_intervals([list(span) for span in spans])

    def _keep_apart(self) -> None:
        """Let no printer run two plates at once, nor people clear more beds than there are people."""
        busy, hands = defaultdict(list), []
        for (key, printer), on in self.on.items():
            size = self.model.new_int_var(0, 2 * self.clear_most, f"b{key}{printer}")
            name, change = f"{key}{printer}", self.shop.change_min[printer]
            run = self.model.new_optional_interval_var(self.starts[key], size, self.frees[key], on, f"r{name}")
            busy[printer].append(run)
            clear = self.model.new_optional_fixed_size_interval_var(self.clears[key], change, on, f"h{name}")
            hands.append(clear)
        for runs in busy.values():
            self.model.add_no_overlap(runs)
        hands += [self.model.new_fixed_size_interval_var(a, b - a, f"h{a}") for a, b in self.shop.cleared]
        self._feed()
        if len(busy) + len(self.shop.cleared) > self.shop.people_n:
            self.model.add_cumulative(hands, [1] * len(hands), self.shop.people_n)

    def _feed(self) -> None:
        """Let no more plates of a colour run at once than there are spools of it."""
        for reel, reels_n in self.shop.reels_n.items():
            runs = []
            for task in (task for task in self.tasks if task.reel == reel):
                size = self.model.new_int_var(0, self.limit, f"z{task.key}")
                start, end = self.starts[task.key], self.ends[task.key]
                runs.append(self.model.new_interval_var(start, size, end, f"f{task.key}"))
            if len(runs) > reels_n:
                self.model.add_cumulative(runs, [1] * len(runs), reels_n)

    def _keep_order(self) -> None:
        """Keep what waits for what."""
        for task in self.tasks:
            for key in task.after_keys:
                if key in self.frees:
                    self.model.add(self.starts[task.key] >= self.frees[key])

    def _keep_together(self) -> None:
        """Keep plates that stay together on one printer."""
        staying = sorted((t for t in self.tasks if t.stay), key=lambda t: (t.job, t.stay, t.plate))
        for one, other in pairwise(staying):
            for printer in self.shop.change_min if (one.job, one.stay) == (other.job, other.stay) else ():
                self.model.add(self.on.get((one.key, printer), 0) == self.on.get((other.key, printer), 0))

    def _keep_first(self, keys: Sequence[Key]) -> None:
        """Let one of a job's plates be cleared before any other of them starts."""
        firsts = {key: self.model.new_bool_var(f"first{key}") for key in keys}
        self.model.add_exactly_one(firsts.values())
        for key, first in firsts.items():
            for other in keys:
                if other != key:
                    self.model.add(self.starts[other] >= self.frees[key]).only_enforce_if(first)

    def _lasts(self) -> dict[int, Any]:
        """Return by job a variable that is at least the minute at which its last bed is cleared."""
        found: dict[int, Any] = {}
        for task in self.tasks:
            if task.job not in found:
                found[task.job] = self.model.new_int_var(0, 2 * self.clear_most, f"last{task.job}")
            self.model.add(found[task.job] >= self.frees[task.key])
        return found

    def _late_days(self, lasts: Mapping[int, Any], most_days: int) -> Any:
        """Return the days that all jobs are late together, no more than a number of them each."""
        days_of = []
        for job, last in lasts.items():
            if self.judge.latest_free_min(job, 0) is None:
                continue
            least = self.judge.late_days(job, 0)
            so_late = {}
            for days in range(least, min(most_days, least + LATE_DAYS_N) + 1):
                so_late[days] = self.model.new_bool_var(f"late{job}by{days}")
                minute = self.judge.latest_free_min(job, days)
                if minute is not None:
                    self.model.add(last <= minute).only_enforce_if(so_late[days])
            self.model.add_exactly_one(so_late.values())
            days_of += [days * literal for days, literal in so_late.items()]
        return sum(days_of)

    def _ready(self, lasts: Mapping[int, Any]) -> Any:
        """Return the weighted sum of the minutes at which devices are ready, hands' work and their hours counted."""
        return sum(self.judge.weight(job) * self._ready_of(job, last) for job, last in lasts.items())

    def _ready_of(self, job: int, last: Any) -> Any:
        """Return a variable that is at least the minute at which a device is ready."""
        if not self.judge.terms_of(job).steps:
            return last
        usual = self.limit + sum(self.shop.change_min.values()) * len(self.tasks) + DAY_MIN
        pieces = self.judge.ready_pieces(job, usual)
        most = self.judge.ready_min(job, 2 * self.clear_most)
        pieces.append(ReadyPiece(low_min=usual + 1, high_min=2 * self.clear_most, ready_min=most, rises=False))
        ready, on = self.model.new_int_var(0, most, f"ready{job}"), []
        for piece in pieces:
            inside = self.model.new_bool_var(f"ready{job}from{piece.low_min}")
            self.model.add(last <= piece.high_min).only_enforce_if(inside)
            self.model.add(last >= piece.low_min).only_enforce_if(inside)
            later = last - piece.low_min if piece.rises else 0
            self.model.add(ready >= piece.ready_min + later).only_enforce_if(inside)
            on.append(inside)
        self.model.add_exactly_one(on)
        return ready

    def sum_of(self, aim: Aim, most_days: int = 0) -> Any:
        """Return what an aim makes least, as ``Judge.worth`` counts it; days late are weighed up to a number."""
        if aim == "ends":
            return sum(self.ends.values())
        if aim == "finish":
            return self.finish
        self.lasts = self.lasts or self._lasts()
        return self._late_days(self.lasts, most_days) if aim == "late" else self._ready(self.lasts)

    def hold(self, worth: Mapping[Aim, int]) -> None:
        """Let a calendar be no worse than another by some aims."""
        for aim, most in worth.items():
            self.model.add(self.sum_of(aim, most) <= most)

    def tidied(self, placed: Sequence[PrintRun], effort: float, seed: int) -> tuple[PrintRun, ...]:
        """Return a calendar with every bed cleared as soon as hands allow; starts stay, and what was held."""
        for run in placed:
            self.model.add(self.starts[run.key] == run.start_min)
            self.model.add(self.on[run.key, run.printer] == 1)
        self.model.minimize(sum(self.clears.values()))
        return self._searched(effort, seed, placed)[0] or tuple(placed)

    def found(
        self, effort: float, seed: int, hint: Sequence[PrintRun], aim: Aim = "finish", most_days: int = 0
    ) -> tuple[tuple[PrintRun, ...], int]:
        """Return the best calendar found by an aim (empty: none), and the bound; days late are weighed up to a number.

        What is aimed at outweighs everything else. Of days late, beds cleared early break ties, a light form of the
        next aim that leads the search well; of devices ready, the last end does.
        """
        least = self.sum_of(aim, most_days)
        if aim == "late":
            heavy = 2 * self.clear_most * (len(self.lasts) + 1)
            self.model.minimize(heavy * least + sum(self.lasts.values()) + self.finish)
        elif aim == "ready":
            self.model.minimize((self.limit + 1) * least + self.finish)
        else:
            self.model.minimize(least)
        return self._searched(effort, seed, hint)

    def _searched(self, effort: float, seed: int, hint: Sequence[PrintRun]) -> tuple[tuple[PrintRun, ...], int]:
        """Search from a known calendar on."""
        self.model.clear_hints()  # type: ignore[no-untyped-call]  # the engine's own binding
        for run in hint:
            self.model.add_hint(self.starts[run.key], run.start_min)
            self.model.add_hint(self.ends[run.key], run.end_min)
            self.model.add_hint(self.clears[run.key], run.clear_min)
            self.model.add_hint(self.frees[run.key], run.free_min)
            for (key, printer), on in self.on.items():
                if key == run.key:
                    self.model.add_hint(on, int(printer == run.printer))
        solver = self.cp.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = seed
        solver.parameters.max_deterministic_time = effort
        status = solver.solve(self.model)
        if status not in (self.cp.OPTIMAL, self.cp.FEASIBLE):
            known = status == self.cp.UNKNOWN and math.isfinite(solver.best_objective_bound)
            return (), max(0, math.ceil(solver.best_objective_bound - 1e-6)) if known else 0
        return tuple(self._run(task, solver) for task in self.tasks), math.ceil(solver.best_objective_bound - 1e-6)

    def _run(self, task: Task, solver: Any) -> PrintRun:
        """Return the run of a task in what was found."""
        i = task.key
        return PrintRun(
            job=task.job,
            plate=task.plate,
            printer=next(p for p in task.takes_min if (i, p) in self.on and solver.boolean_value(self.on[i, p])),
            start_min=solver.value(self.starts[i]),
            end_min=solver.value(self.ends[i]),
            clear_min=solver.value(self.clears[i]),
            free_min=solver.value(self.frees[i]),
        )

"""Unnumbered: the same plates are the same question under any numbers, so numbering them anew needs no other search."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from planner.schedule.calendar.schedule_records import Key, PrintRun, Task


@dataclass(frozen=True, slots=True, kw_only=True)
class Unnumbered:
    """Tasks of which each job's are numbered from 1 by what they are; ``own`` gives their own keys back.

    ``alike`` are keys of tasks that nothing but the number tells apart.
    """

    tasks: tuple[Task, ...]
    own: Mapping[Key, Key]
    alike: tuple[tuple[Key, ...], ...]

    @staticmethod
    def of(tasks: Sequence[Task]) -> Unnumbered:
        """Return tasks under other numbers: the longest first, as :func:`in_order` has them, equals as they come."""
        facts = {task.key: _facts(task) for task in tasks}
        waits = {task.key: (facts[task.key], sorted(facts.get(key, ()) for key in task.after_keys)) for task in tasks}
        ranked = sorted(tasks, key=lambda task: (task.job, waits[task.key], task.plate))
        numbers, last = dict[Key, int](), defaultdict[int, int](int)
        for task in ranked:
            last[task.job] += 1
            numbers[task.key] = last[task.job]
        awaited = {key for task in tasks for key in task.after_keys}
        alike: dict[tuple[object, ...], list[Key]] = {}
        for task in ranked:
            if task.key not in awaited:
                alike.setdefault((task.job, facts[task.key], task.after), []).append(task.key)
        return Unnumbered(
            tasks=tuple(
                replace(t, plate=numbers[t.key], after=tuple(sorted(numbers[k] for k in t.after_keys if k in numbers)))
                for t in ranked
            ),
            own={(job, number): (job, plate) for (job, plate), number in numbers.items()},
            alike=tuple(tuple(keys) for keys in alike.values() if len(keys) > 1),
        )

    def numbered(self, placed: Sequence[PrintRun]) -> tuple[PrintRun, ...]:
        """Return runs under the tasks' own numbers; of plates that are alike the lower number runs first."""
        runs = {run.key: run for run in (replace(run, plate=self.own[run.key][1]) for run in placed)}
        for keys in self.alike:
            mine = sorted((runs[key] for key in keys if key in runs), key=lambda run: (run.start_min, run.printer))
            runs |= {key: replace(run, plate=key[1]) for key, run in zip(keys, mine, strict=False)}
        return tuple(sorted(runs.values(), key=lambda run: (run.start_min, run.key)))


def _facts(task: Task) -> tuple[object, ...]:
    """Return what a task is beside its number and what it waits for, in an order that can be sorted."""
    return (
        (-task.shortest_min, task.rank, tuple(sorted(task.takes_min.items())), tuple(sorted(task.lost_min.items()))),
        (task.ends, task.stay, task.watched, task.not_before_min, task.reel),
        () if task.cleared_by_min is None else (task.cleared_by_min,),
        task.stood or (),
    )

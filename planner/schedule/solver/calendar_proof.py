"""Prove: a finished calendar checked from scratch, minute by span; it shares no code with the solver."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from planner.schedule.calendar.schedule_records import Key, PrintRun, Shop, Task
from planner.schedule.calendar.schedule_terms import ScheduleTerms


def proved(
    placed: Sequence[PrintRun], tasks: Sequence[Task], shop: Shop, terms: Sequence[ScheduleTerms] = ()
) -> tuple[str, ...]:
    """Return what is wrong with a calendar, in sentences; empty where it holds."""
    runs, wrong = {run.key: run for run in placed}, list[str]()
    for task in tasks:
        run = runs.get(task.key)
        if run is None:
            wrong.append(f"plate {task.plate} has no time")
            continue
        wrong += _own_rules(run, task, runs)
        wrong += _place_rules(run, task, shop)
    for one, other in combinations(sorted(placed, key=lambda run: (run.start_min, run.key)), 2):
        if one.printer == other.printer and other.start_min < one.free_min:
            wrong.append(f"plates {one.plate} and {other.plate} are on {one.printer} at once")
    wrong += _stays(runs, tasks)
    wrong += _first_articles(placed, terms)
    wrong += _spools(runs, tasks, shop)
    clearing = [*((run.clear_min, run.free_min) for run in placed), *shop.cleared]
    for run in placed:
        if sum(low <= run.clear_min < high for low, high in clearing) > shop.people_n:
            wrong.append(f"more beds are cleared at minute {run.clear_min} than there are people")
    return tuple(wrong)


def _own_rules(run: PrintRun, task: Task, runs: Mapping[Key, PrintRun]) -> Iterator[str]:
    """Yield what breaks a plate's own rules: its length, its begin, when it is cleared, what it waits for."""
    if run.end_min - run.start_min != task.takes_min.get(run.printer):
        yield f"plate {task.plate} takes another time on {run.printer}"
    if run.start_min < task.not_before_min:
        yield f"plate {task.plate} starts before its job begins"
    if task.cleared_by_min is not None and run.free_min > task.cleared_by_min:
        yield f"plate {task.plate} is cleared too late"
    for plate in task.after:
        if (task.job, plate) in runs and run.start_min < runs[task.job, plate].free_min:
            yield f"plate {task.plate} starts before plate {plate} is looked at"


def _place_rules(run: PrintRun, task: Task, shop: Shop) -> Iterator[str]:
    """Yield what breaks the rules of the place: who is there when, and quiet hours."""
    if run.start_min < shop.free_from_min.get(run.printer, 0):
        yield f"plate {task.plate} starts before {run.printer} is free"
    there = shop.there(run.printer)
    if not any(a <= run.start_min < b for a, b in there):
        yield f"plate {task.plate} starts while nobody is there"
    inside = any(a <= run.start_min and run.end_min <= b for a, b in there)
    if (task.watched or not shop.unattended) and not inside:
        yield f"plate {task.plate} runs unattended"
    if any(a < run.end_min and run.start_min < b for a, b in shop.quiet):
        yield f"plate {task.plate} runs in quiet hours"
    if run.clear_min < run.end_min or run.free_min - run.clear_min != shop.change_min[run.printer]:
        yield f"the bed of plate {task.plate} is not cleared after it"
    if not any(a <= run.clear_min and run.free_min <= b for a, b in there):
        yield f"the bed of plate {task.plate} is cleared while nobody is there"


def _spools(runs: Mapping[Key, PrintRun], tasks: Sequence[Task], shop: Shop) -> Iterator[str]:
    """Yield the plates that run while as many others of their colour do as there are spools of it."""
    for reel, reels_n in shop.reels_n.items():
        mine = [runs[task.key] for task in tasks if task.reel == reel and task.key in runs]
        for run in mine:
            if sum(each.start_min <= run.start_min < each.end_min for each in mine) > reels_n:
                yield f"plate {run.plate} runs without a spool of {reel}"


def _stays(runs: Mapping[Key, PrintRun], tasks: Sequence[Task]) -> Iterator[str]:
    """Yield the plates that should stay on one printer and do not."""
    for one, other in combinations((task for task in tasks if task.stay and task.key in runs), 2):
        if (one.job, one.stay) == (other.job, other.stay) and runs[one.key].printer != runs[other.key].printer:
            yield f"plates {one.plate} and {other.plate} are on two printers"


def _first_articles(placed: Sequence[PrintRun], terms: Sequence[ScheduleTerms]) -> Iterator[str]:
    """Yield the plates that start before the first plate of their job is looked at, where the job asks for that."""
    for job, each in enumerate(terms):
        mine = sorted((run for run in placed if run.job == job), key=lambda run: (run.start_min, run.plate))
        for run in mine[1:] if each.first_article else ():
            if run.start_min < mine[0].free_min:
                yield f"plate {run.plate} starts before plate {mine[0].plate} is looked at"

"""Prove: a finished calendar checked from scratch, minute by span; it shares no code with the solver."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from planner.schedule.calendar.task import Placed, Shop, Task


def proved(placed: Sequence[Placed], tasks: Sequence[Task], shop: Shop) -> tuple[str, ...]:
    """Return what is wrong with a calendar, in sentences; empty where it holds."""
    wrong = []
    runs = {run.plate: run for run in placed}
    for task in tasks:
        run = runs.get(task.plate)
        if run is None:
            wrong.append(f"plate {task.plate} has no time")
            continue
        if run.end - run.start != task.takes_min.get(run.printer):
            wrong.append(f"plate {task.plate} takes another time on {run.printer}")
        if run.start < task.not_before_min:
            wrong.append(f"plate {task.plate} starts before its job begins")
        if not any(a <= run.start < b for a, b in shop.attended):
            wrong.append(f"plate {task.plate} starts while nobody is there")
        if (task.watched or not shop.unattended) and not any(a <= run.start and run.end <= b for a, b in shop.attended):
            wrong.append(f"plate {task.plate} runs unattended")
        if any(a < run.end and run.start < b for a, b in shop.quiet):
            wrong.append(f"plate {task.plate} runs in quiet hours")
        if run.clear < run.end or run.free - run.clear != shop.change_min[run.printer]:
            wrong.append(f"the bed of plate {task.plate} is not cleared after it")
        if not any(a <= run.clear and run.free <= b for a, b in shop.attended):
            wrong.append(f"the bed of plate {task.plate} is cleared while nobody is there")
        for plate in task.after:
            if plate in runs and run.start < runs[plate].free:
                wrong.append(f"plate {task.plate} starts before plate {plate} is looked at")
    ranks = {task.plate: task.rank for task in tasks}
    stays = {task.plate: task.stay for task in tasks}
    for one, other in combinations(sorted(placed, key=lambda run: (run.start, run.plate)), 2):
        if one.printer == other.printer and other.start < one.free:
            wrong.append(f"plates {one.plate} and {other.plate} are on {one.printer} at once")
        if one.printer == other.printer and ranks[one.plate] > ranks[other.plate]:
            wrong.append(f"plate {one.plate} runs before plate {other.plate}, which tells more for less")
        if stays[one.plate] and stays[one.plate] == stays[other.plate] and one.printer != other.printer:
            wrong.append(f"plates {one.plate} and {other.plate} are on two printers")
    for run in placed:
        if sum(each.clear <= run.clear < each.free for each in placed) > shop.people_n:
            wrong.append(f"more beds are cleared at minute {run.clear} than there are people")
    return tuple(wrong)

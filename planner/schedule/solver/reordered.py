"""Reordered: a calendar of many plates made better by moving plates and jobs in the order of dispatch.

Hill climbing on the order: of late jobs plates, or whole jobs, are moved forward; a move stays where it is no worse.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from planner.schedule.calendar.schedule_records import PrintRun, Task, by_key
from planner.schedule.calendar.schedule_terms import Judge, last_free_min
from planner.schedule.solver.dispatch import Dispatch, first_calendar, waits_kept
from planner.schedule.solver.made_room import lateness, moved_n, with_room
from planner.schedule.solver.stays import in_last_order

MOVES_N = 300
"""Moves that are tried; one of 300 plates takes about a hundredth of a second."""


BEGUN_ANEW_N = 1
"""So many other first calendars of many plates are tried while some job is late."""
AGAIN_N, ROOM_N = 60, 30
"""Of a plan that is changed: orders that are tried for one made anew, and exchanges that are tried."""


def of_many(
    tasks: Sequence[Task], judge: Judge, best: tuple[PrintRun, ...], stays: tuple[PrintRun, ...], seed: int
) -> tuple[PrintRun, ...]:
    """Return a calendar of many plates, or of a plan that is changed: there plates stay, but those that make room.

    A plan that is changed stays as it was but for what makes room, or keeps its order and is shifted, or is made anew:
    whichever costs least in days late and plates that move, by what the shop says that a day is worth.
    """
    if stays:
        others = with_room(tasks, judge, in_last_order(tasks, judge), seed, ROOM_N), best
        # as it was comes first: room that moves more plates than its days are worth is not made
        tried = stays, with_room(tasks, judge, stays, seed, ROOM_N), *(each for each in others if each)
        return min(tried, key=lambda each: judge.shop.moves_a_day * lateness(each, judge)[0] + moved_n(tasks, each))
    best = with_room(tasks, judge, best, seed)
    for lot in range(seed + 1, seed + 1 + BEGUN_ANEW_N):
        if not lateness(best, judge)[0]:
            break
        other = with_room(tasks, judge, first_calendar(tasks, judge, lot), lot)
        best = min((best, other), key=lambda placed: lateness(placed, judge))
    return reordered(tasks, judge, best, seed)


def reordered(tasks: Sequence[Task], judge: Judge, best: tuple[PrintRun, ...], seed: int) -> tuple[PrintRun, ...]:
    """Return a calendar with no more days late, found by moves in the order of dispatch."""
    known, rng, dispatch = by_key(tasks), np.random.default_rng(seed), Dispatch(judge)
    order = waits_kept([known[run.key] for run in sorted(best, key=lambda run: (run.start_min, run.key))])
    score = _score(best, judge)
    for _ in range(MOVES_N):
        late = [job for job, days in judge.by_job(best).items() if days]
        if not late:
            break
        tried = waits_kept(_moved(order, late, rng))
        placed = dispatch.placed(tried)
        if not placed:
            continue
        worth = _score(placed, judge)
        if worth <= score:
            order, score, best = tried, worth, placed
    return best


def _score(placed: Sequence[PrintRun], judge: Judge) -> tuple[int, int, int]:
    """Return days late, then by how many minutes late devices are over their deadlines, then printer minutes."""
    free = last_free_min(placed)
    over = 0
    for job, minute in free.items():
        latest = judge.latest_free_min(job, 0)
        over += 0 if latest is None else max(0, minute - latest)
    days = sum(judge.late_days(job, minute) for job, minute in free.items())
    return days, over, sum(run.end_min - run.start_min for run in placed)


def _moved(order: list[Task], late: Sequence[int], rng: np.random.Generator) -> list[Task]:
    """Return an order with a plate, or all plates, of a late job moved forward; at times any job put back."""
    found, kind = list(order), int(rng.integers(4))
    job = late[int(rng.integers(len(late)))]
    if kind == 3:
        others = sorted({task.job for task in order} - set(late))
        job = others[int(rng.integers(len(others)))] if others else job
    mine = [task for task in found if task.job == job]
    if kind == 0:
        mine = [mine[int(rng.integers(len(mine)))]]
    keys = {task.key for task in mine}
    first = next(place for place, task in enumerate(found) if task.key in keys)
    rest = [task for task in found if task.key not in keys]
    if kind == 3:
        at = first + int(rng.integers(max(1, len(rest) - first + 1)))
    else:
        at = max(0, first - int(rng.integers(1, max(2, len(order) // 4))))
    if kind == 2 and len(mine) > 1:  # spread over a stretch, as printers take them
        for step, task in enumerate(mine):
            rest.insert(min(len(rest), at + step * int(rng.integers(1, 8))), task)
        return rest
    return [*rest[:at], *mine, *rest[at:]]

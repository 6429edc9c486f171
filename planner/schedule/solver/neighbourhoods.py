"""Neighbourhoods: a calendar of several jobs made better a few plates at a time, the others staying as they are.

Large neighbourhood search (Shaw 1998, CP98 LNCS 1520:417, from memory): plates of one job and others that run about
the same time are taken out and put back by the exact model, again and again.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from planner.schedule.calendar.schedule_records import Key, PrintRun, Task, by_key, finish_of
from planner.schedule.calendar.schedule_terms import Judge, last_free_min
from planner.schedule.calendar.weekly_spans import HORIZON_MIN
from planner.schedule.solver.minute_model import Aim, MinuteModel

FREE_N = 10
"""So many plates are placed again at once."""
JOB_N = 6
"""Of these, so many at most are of the job that is to be ready sooner."""
EFFORT, WHOLE_EFFORT = 0.3, 3.0
"""Limits of one search in the solver's deterministic time, the second where all plates are placed again at once."""
ROOM_MIN = 7 * 24 * 60
"""Where days late count, the last end may move back by this much."""


def improved(
    tasks: Sequence[Task], judge: Judge, best: tuple[PrintRun, ...], aim: Aim, rounds_n: int, seed: int
) -> tuple[PrintRun, ...]:
    """Return a calendar that is at least as good, after so many rounds at most."""
    known, rng = by_key(tasks), np.random.default_rng(seed)
    score, quiet_n = judge.score(best, known), 0
    for _ in range(rounds_n):
        free = _freed(best, judge, aim, rng)
        if not free or quiet_n > max(2, rounds_n // 3):
            break
        limit = finish_of(best, known) + (ROOM_MIN if aim == "late" else 0)
        fixed = {run.key: run for run in best if run.key not in free}
        model = MinuteModel(tasks, judge, min(limit, HORIZON_MIN), fixed=fixed)
        placed, _ = model.found(
            WHOLE_EFFORT if len(free) == len(tasks) else EFFORT, seed, best, aim, most_days=score[0]
        )
        quiet_n += 1
        if placed and judge.score(placed, known) < score:
            best, score, quiet_n = placed, judge.score(placed, known), 0
        if len(free) == len(tasks):
            break
    return best


def _freed(placed: Sequence[PrintRun], judge: Judge, aim: Aim, rng: np.random.Generator) -> set[Key]:
    """Return the plates to place anew: of one job, and those that start before it is printed, the nearest first."""
    if len(placed) <= FREE_N:
        return {run.key for run in placed}
    late = judge.by_job(placed)
    jobs = [job for job, days in sorted(late.items()) if days or aim != "late"]
    if aim == "finish":
        jobs = [max(placed, key=lambda run: (run.end_min, run.key)).job]
    if not jobs:
        return set()
    job = jobs[int(rng.integers(len(jobs)))]
    mine = sorted((run for run in placed if run.job == job), key=lambda run: (-run.end_min, run.plate))
    free = {run.key for run in mine[:JOB_N]}
    until = last_free_min(placed)[job]
    others = [run for run in placed if run.key not in free and run.start_min < until]
    order = rng.permutation(len(others))
    near = sorted(range(len(others)), key=lambda k: (until - others[k].end_min) // (24 * 60) + int(order[k]) % 3)
    return free | {others[k].key for k in near[: FREE_N - len(free)]}

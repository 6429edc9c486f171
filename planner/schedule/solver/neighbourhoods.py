"""Neighbourhoods: a calendar made better by the exact model: few plates aim by aim, many a few plates at a time.

Few plates are put where they are best by the first aim, then by the next with the first held, and so on. Of many the
others stay as they are.
Large neighbourhood search (Shaw 1998, CP98 LNCS 1520:417, from memory): plates of one job and others that run about
the same time are taken out and put back by the exact model, again and again.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from planner.schedule.calendar.schedule_records import Key, PrintRun, Task, by_key, finish_of
from planner.schedule.calendar.schedule_terms import AIMS, Aim, Judge, Score, last_free_min
from planner.schedule.calendar.weekly_spans import HORIZON_MIN
from planner.schedule.solver.minute_model import MinuteModel

FREE_N = 10
"""So many plates are placed again at once."""
JOB_N = 6
"""Of these, so many at most are of the job that is to be ready sooner."""
EFFORT, WHOLE_EFFORT = 0.3, 3.0
"""Limits of one search in the solver's deterministic time, the second where all plates are placed again at once."""
AIM_EFFORT: dict[Aim, float] = {"late": 3.0, "ready": 8.0, "finish": 8.0, "ends": 2.0}
"""Limits of single searches in the solver's deterministic time, about a second each on a desk computer."""
OTHERS_EFFORT = 1.0
"""The limit of a search for devices ready earlier where other jobs may be late for it."""
ROOM_MIN = 7 * 24 * 60
"""For fewer days late, or devices ready sooner, the last end may move back by this much."""


def improved(
    tasks: Sequence[Task], judge: Judge, best: tuple[PrintRun, ...], aim: Aim, rounds_n: int, seed: int
) -> tuple[PrintRun, ...]:
    """Return a calendar that is no more days late and at least as good by an aim, after so many rounds at most."""
    known, rng = by_key(tasks), np.random.default_rng(seed)

    def rank(placed: Sequence[PrintRun]) -> tuple[int, int, Score]:
        worth = judge.worth(placed, known)
        return worth["late"], worth[aim], judge.score(placed, known)

    score, quiet_n = rank(best), 0
    for _ in range(rounds_n):
        free = _freed(best, judge, aim, rng)
        if not free or quiet_n > max(2, rounds_n // 3):
            break
        limit = finish_of(best, known) + (ROOM_MIN if aim in ("late", "ready") else 0)
        fixed = {run.key: run for run in best if run.key not in free}
        model = MinuteModel(tasks, judge, min(limit, HORIZON_MIN), fixed=fixed)
        placed, _ = model.found(
            WHOLE_EFFORT if len(free) == len(tasks) else EFFORT, seed, best, aim, most_days=score[0]
        )
        quiet_n += 1
        if placed and rank(placed) < score:
            best, score, quiet_n = placed, rank(placed), 0
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


def aim_by_aim(
    tasks: Sequence[Task], judge: Judge, best: tuple[PrintRun, ...], seed: int
) -> tuple[tuple[PrintRun, ...], int]:
    """Return a calendar that is as good as a known one, and a bound on the last end of all that are as good.

    Where some job has to be late, devices are made ready early with the days late of each job held, which is quickly
    done, then with those of all jobs together, which may be late in other jobs; what is left is done with each held.
    """
    least_days = sum(judge.late_days(job, 0) for job in last_free_min(best))
    if sum(judge.by_job(best).values()) > least_days:
        best, _ = _better(tasks, judge, best, "late", AIM_EFFORT["late"], seed)
    bound = 0
    for aim in AIMS[1:]:
        best, least = _better(no_later(tasks, judge, best), judge, best, aim, AIM_EFFORT[aim], seed)
        if aim == "ready" and sum(judge.by_job(best).values()) > least_days:
            best, _ = _better(tasks, judge, best, aim, OTHERS_EFFORT, seed)
        bound = least if aim == "finish" else bound
    return best, bound


def _better(
    tasks: Sequence[Task], judge: Judge, best: tuple[PrintRun, ...], aim: Aim, effort: float, seed: int
) -> tuple[tuple[PrintRun, ...], int]:
    """Return the better of what is known and what is found by an aim with those before it held, and a bound of it."""
    known, now = by_key(tasks), judge.worth(best, by_key(tasks))
    finish = finish_of(best, known)
    limit = min(finish + ROOM_MIN, HORIZON_MIN) if aim in ("late", "ready") else finish
    model = MinuteModel(tasks, judge, limit)
    model.hold({each: now[each] for each in AIMS[: AIMS.index(aim)]})
    found, least = model.found(effort, seed, best, aim, most_days=now["late"])
    return (found if found and judge.score(found, known) < judge.score(best, known) else best), least


def no_later(tasks: Sequence[Task], judge: Judge, best: Sequence[PrintRun]) -> list[Task]:
    """Return tasks that have to be cleared so soon that no job is later than a calendar has it."""
    return cleared_by(tasks, {job: judge.latest_free_min(job, days) for job, days in judge.by_job(best).items()})


def cleared_by(tasks: Sequence[Task], minutes: Mapping[int, int | None]) -> list[Task]:
    """Return tasks whose beds have to be cleared by a minute of their job."""
    return [replace(task, cleared_by_min=minutes[task.job]) for task in tasks]

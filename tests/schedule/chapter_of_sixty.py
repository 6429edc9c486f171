"""A chapter of many recipients, and a bound on its days late and printer hours that no calendar beats.

``python -m tests.schedule.chapter_of_sixty 60`` measures how near a calendar comes, and how long that takes.
"""

from __future__ import annotations

import random
import sys
import time
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta

from planner.job import Attended
from planner.schedule import ScheduleTerms, Shop, Step, Task, Wall, proved, solved
from planner.schedule.calendar.schedule_records import PrintRun
from planner.schedule.calendar.schedule_terms import Judge
from planner.schedule.calendar.weekly_spans import spans_of
from planner.schedule.solver.made_room import moved_n

START = datetime(2026, 11, 30, 8)
WALL = Wall(start=START)
SPEEDS = {"bench-1": 1.0, "bench-2": 1.0, "cabinet": 0.98, "large": 1.03, "small": 1.06}
DAYS = (Attended(days=(0, 1, 2, 3, 4, 5, 6), from_min=8 * 60, to_min=22 * 60),)


def chapter(n: int, seed: int = 1, days: int = 21) -> tuple[list[Task], Shop, list[ScheduleTerms]]:
    """Return recipients of ten kinds of device, five plates each, due within some days; one bed is small."""
    lot = random.Random(seed)  # noqa: S311  a test
    kinds = [[lot.randint(60, 600) for _ in range(5)] for _ in range(10)]
    tasks, terms = list[Task](), list[ScheduleTerms]()
    for job in range(n):
        for plate, minutes in enumerate(kinds[job % 10], 1):
            takes = {p: round(minutes * f) for p, f in SPEEDS.items() if p != "small" or plate > 2}
            tasks.append(
                Task(job=job, plate=plate, takes_min=takes, lost_min={p: round(0.05 * m) for p, m in takes.items()})
            )
        due = START.date() + timedelta(days=lot.randint(7, days))
        terms.append(
            ScheduleTerms(steps=(Step(name="assemble", takes_min=120),), deadline=due, wall=WALL, first_article=True)
        )
    shop = Shop(change_min=dict.fromkeys(SPEEDS, 10), attended=spans_of(DAYS, START), unattended=True, people_n=2)
    return tasks, shop, terms


def least_late_days(tasks: Sequence[Task], shop: Shop, terms: Sequence[ScheduleTerms]) -> int:
    """Return days late that no calendar beats.

    Of the jobs due by a day some are not printed a number of days later, whatever is printed first: all printers as
    one, never idle, each plate at its fastest, smallest jobs first. A job is late for each day on which it is unfinished.
    """
    work: dict[int, int] = {}
    for task in tasks:
        work[task.job] = work.get(task.job, 0) + task.shortest_min + min(shop.change_min.values())
    due = {job: term.deadline for job, term in enumerate(terms) if term.deadline is not None and job in work}
    best = 0
    for last in sorted(set(due.values())):
        jobs = sorted(work[job] for job, day in due.items() if day <= last)
        late, after = 0, last
        while (left := len(jobs) - _finished(jobs, after, len(shop.change_min))) > 0:
            late, after = late + left, after + timedelta(days=1)
        best = max(best, late)
    return best


def _finished(jobs: Sequence[int], day: date, printers_n: int) -> int:
    """Return how many jobs, smallest first, all printers together can finish by the end of a day."""
    room = printers_n * max(0.0, WALL.minutes_to(datetime.combine(day + timedelta(days=1), datetime.min.time())))
    done = 0
    for work in jobs:
        room -= work
        if room < 0:
            break
        done += 1
    return done


def worth(tasks: Sequence[Task], placed: Sequence[PrintRun], judge: Judge) -> tuple[int, float, float]:
    """Return days late, printer hours, and the least printer hours: each plate on its fastest printer."""
    hours = sum(run.end_min - run.start_min for run in placed) / 60.0
    return sum(judge.by_job(placed).values()), hours, sum(task.shortest_min for task in tasks) / 60.0


def main(n: int) -> None:
    """Measure a chapter, and its plan after one plate has failed."""
    tasks, shop, terms = chapter(n)
    judge, began = Judge(terms, shop), time.process_time()
    answer = solved(tasks, shop, terms)
    seconds = time.process_time() - began
    late, hours, least_h = worth(tasks, answer.placed, judge)
    bound = least_late_days(tasks, shop, terms)
    over = 100.0 * ((late + hours) / (bound + least_h) - 1.0)
    assert not proved(answer.placed, tasks, shop, terms)
    print(
        f"{len(tasks)} plates: {seconds:.1f} s, {late} days late (bound {bound}), {hours:.0f} h (least {least_h:.0f}): {over:.2f} %"
    )
    stood = {run.key: (run.start_min, run.printer) for run in answer.placed}
    first = min(answer.placed, key=lambda run: (run.start_min, run.end_min))
    begun = {run.key: run for run in answer.placed if run.start_min < first.end_min}
    again = [
        replace(t, stood=None if t.key == first.key else stood[t.key], not_before_min=first.end_min)
        for t in tasks
        if t.key == first.key or t.key not in begun
    ]
    terms = [  # what runs is their first article
        replace(one, first_article=one.first_article and job not in {run.job for run in begun.values()} - {first.job})
        for job, one in enumerate(terms)
    ]
    shop = replace(shop, free_from_min={run.printer: run.free_min for run in begun.values()})
    began = time.process_time()
    after = solved(again, shop, terms)
    seconds = time.process_time() - began
    moved = sum(stood[run.key] != (run.start_min, run.printer) for run in after.placed if run.key != first.key)
    days, over = sum(judge.by_job(after.placed).values()), moved_n(again, after.placed)
    print(f"after one failure: {seconds:.1f} s, {days} days late, {moved} plates moved, {over} by half a day or more")


if __name__ == "__main__":
    main(int(sys.argv[1]))

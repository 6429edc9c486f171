"""Rounds through random chapters: planned, looked at, and planned again after what happened.

``python -m tests.cli.ledger.chapters.chapter_rounds 200`` goes through so many, and prints what is wrong.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Iterator, Mapping
from contextlib import AbstractContextManager, ExitStack, contextmanager
from functools import partial
from pathlib import Path
from types import ModuleType
from unittest import mock

from planner.plan import Plan
from planner.plan.dates import timed_plan
from planner.schedule.calendar import timetable
from planner.schedule.solver import neighbourhoods, reordered, solve
from planner.schedule.solver.dispatch import first_calendar
from planner.schedule.ways_out import once_bought, weighed
from tests.cli.ledger.chapters.chapter_kinds import kinds
from tests.cli.ledger.random_chapters import RandomChapter

EFFORTS = ("PROBE", "MINUTES", "EARLY", "PROOF", "PATIENT", "HELD")
LESS: tuple[tuple[ModuleType, str, object], ...] = (
    *((solve, f"{effort}_EFFORT", getattr(solve, f"{effort}_EFFORT") / 10.0) for effort in EFFORTS),
    (neighbourhoods, "AIM_EFFORT", {aim: each / 10.0 for aim, each in neighbourhoods.AIM_EFFORT.items()}),
    *((solve, f"{rounds}_ROUNDS_N", 2) for rounds in ("LATE", "FINISH", "READY")),
    (solve, "TIMING_VERSION", -1),  # nobody else is given what was found so
    (solve, "first_calendar", partial(first_calendar, tries_n=30)),
    (timetable, "TRIES_N", 30),
    (reordered, "MOVES_N", 60),
    (timed_plan, "_splits", lambda *_: []),
    (timed_plan, "ways_out", lambda jobs, *_: ((),) * len(jobs)),
    (weighed, "TRIES_N", 6),
    (once_bought, "TRIES_N", 6),
)
WHOLE = tuple((module, name, getattr(module, name)) for module, name, _ in LESS)


@contextmanager
def _put(values: tuple[tuple[ModuleType, str, object], ...]) -> Iterator[None]:
    with ExitStack() as patches:
        for module, name, value in values:
            patches.enter_context(mock.patch.object(module, name, value))
        yield


def less_effort() -> AbstractContextManager[None]:
    """Search calendars shorter, and ask for no way out: what holds of any calendar holds of a worse one too."""
    return _put(LESS)


def whole_effort() -> AbstractContextManager[None]:
    """Search as a chapter does, within ``less_effort``: what a purchase saves is promised of no worse calendar."""
    return _put(WHOLE)


def wrong_in(seed: int, plans: list[Plan], folder: Path, rounds_n: int = 2) -> Iterator[str]:
    """Yield what is wrong in one random chapter over some rounds."""
    one = RandomChapter(seed, plans, folder, whole_effort)
    for turn in range(rounds_n):
        yield from (f"chapter {seed}, plan {turn + 1}: {fault}" for fault in one.planned())
        one.happens()
    yield from (f"chapter {seed}, last plan: {fault}" for fault in one.planned())


def main(first: int, last: int) -> int:
    """Go through chapters, and return how many are wrong."""
    wrong: Mapping[int, list[str]] = {}
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        plans = kinds(home)
        for seed in range(first, last):
            began = time.process_time()
            with less_effort():
                found = list(wrong_in(seed, plans, home))
            wrong = {**wrong, **({seed: found} if found else {})}
            print(f"chapter {seed}: {time.process_time() - began:.1f} s", *found, sep="\n  ", flush=True)
    print(f"{len(wrong)} of {last - first} chapters are wrong: {sorted(wrong)}")
    return len(wrong)


if __name__ == "__main__":
    sys.exit(main(0, int(sys.argv[1])) if len(sys.argv) == 2 else main(int(sys.argv[1]), int(sys.argv[2])))

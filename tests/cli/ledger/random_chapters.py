"""Random chapters with events in between, each plan looked at by the checker.

``python -m tests.cli.ledger.random_chapters 200`` goes through so many, and prints what is wrong.
"""

from __future__ import annotations

import json
import random
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from datetime import date, datetime, timedelta
from functools import partial
from pathlib import Path
from types import ModuleType
from typing import Any
from unittest import mock
from uuid import uuid4

from planner.cli.ledger.chapter_state import ChapterState
from planner.job import Attended, read_job
from planner.ledger import Event, shown, told, under_way
from planner.ledger import made as new_ledger
from planner.output import chapter_json
from planner.plan import Plan, make_plan, on_one_calendar, prepare
from planner.plan.chapter import chapter
from planner.plan.dates import timed_plan
from planner.schedule.calendar import timetable
from planner.schedule.solver import neighbourhoods, reordered, solve
from planner.schedule.solver.dispatch import first_calendar
from tests.cli.ledger.chapter_checker import Truth, faults
from tests.shapes import bored_plate, cuboid, written

MONDAY = datetime(2026, 11, 30, 8)
KINDS = (
    {"base": (1, (110, 70, 12)), "block": (3, (70, 50, 24)), "cap": (4, (30, 30, 10))},
    {"bar": (2, (150, 30, 14)), "knob": (2, (60, 60, 30)), "clip": (5, (25, 20, 8)), "lid": (1, (170, 165, 5))},
)
PRINTERS = {"bench-1": "bench-220", "bench-2": "bench-220", "small-1": "small-180"}
HEAD = """
[job]
name = "kind"
recipient = "R-0"
material = "petg"
mesh_unit = "mm"
[size]
percent = 100.0
[plan]
start = 2026-11-30T08:00:00
coupon = "never"
"""


def kinds(folder: Path) -> list[Plan]:
    """Return a plan of every kind of device."""
    plans = []
    for number, parts in enumerate(KINDS):
        home = folder / f"kind{number}"
        home.mkdir(parents=True)
        rows = list[str]()
        for name, (n, size) in parts.items():
            solid = bored_plate(*size, []) if name == "base" else cuboid(*size)
            written(solid, home / f"{name}.stl")
            rows.insert(0, f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\ncount = {n}\nduty = "cover"\n')
        apart = f"apart = [{json.dumps(list(parts))}]\n"
        (home / "job.toml").write_text("".join((HEAD, apart, *rows)), encoding="utf-8")
        plans.append(make_plan(prepare(read_job(home / "job.toml"), MONDAY.date())))
    return plans


class RandomChapter:
    """One chapter: jobs of some kinds, helpers, spools, hours, and what happens to it."""

    def __init__(self, seed: int, plans: list[Plan], folder: Path) -> None:
        self.lot, self.kinds = random.Random(seed), plans  # noqa: S311  a test
        lot = self.lot
        from_hour, to_hour = lot.choice([(8, 20), (9, 17), (17, 22), (0, 24)])
        self.attended = (Attended(days=tuple(range(7)), from_min=60 * from_hour, to_min=60 * to_hour),)
        self.unattended, self.people_n = lot.random() < 0.5, lot.choice([1, 2, 3])
        spools = {f"S-{n}": float(lot.choice([60, 150, 400, 1000])) for n in range(1, lot.choice([2, 3, 4, 5]))}
        people: dict[str, tuple[set[str], float | None, set[date]]] = {
            "M-1": (
                {"maker", "tester"},
                lot.choice([None, 4.0, 10.0]),
                {MONDAY.date() + timedelta(days=lot.randint(0, 9))},
            ),
            "M-2": ({"maker"}, 3.0, set()),
            "T-1": ({"tester", "fitter"}, None, set()),
        }
        self.truth = Truth(
            from_hour=from_hour,
            to_hour=to_hour,
            unattended=self.unattended,
            people=people,
            left_g=dict(spools),
            need={},
        )
        own_hours = lot.choice([None, None, (10, 16), (9, 19)])
        if own_hours:
            self.truth.own_hours = {"bench-2": own_hours}
        weeks = {name: [f"Mon-Sun {a:02}:00-{b:02}:00"] for name, (a, b) in self.truth.own_hours.items()}
        self.engine = new_ledger(str(folder / f"ledger{seed}.db"))
        self.jobs: dict[str, Plan] = {}
        self.now = MONDAY - timedelta(hours=lot.randint(0, 10))
        events = [
            *(
                self._event(
                    "person", code, roles=sorted(roles), hours_week=hours, away=[day.isoformat() for day in away]
                )
                for code, (roles, hours, away) in people.items()
            ),
            *(
                self._event("printer", name, profile=profile, attended=weeks.get(name, []), calibrated_until=None)
                for name, profile in list(PRINTERS.items())[: lot.choice([1, 2, 3])]
            ),
            *(
                self._event("spool", name, material="petg", colour="any", lot="L", left_g=left_g, printer="")
                for name, left_g in spools.items()
            ),
        ]
        told(self.engine, events, self.now)
        for _ in range(lot.randint(2, 4)):
            self.comes_in()

    def _event(self, kind: str, subject: str, **body: Any) -> Event:
        return Event(key=uuid4().hex, at=self.now, kind=kind, subject=subject, role="lead", body=body)

    def comes_in(self) -> None:
        """Add a recipient."""
        code, plan = f"R-{len(self.jobs) + 1}", self.lot.choice(self.kinds)
        ready = plan.stage.sized.ready
        assert ready.job.calendar is not None
        calendar = replace(
            ready.job.calendar,
            attended=self.attended,
            unattended=self.unattended,
            people_n=self.people_n,
            first_article=self.lot.random() < 0.5,
            deadline=MONDAY.date() + timedelta(days=self.lot.randint(1, 12)) if self.lot.random() < 0.8 else None,
        )
        job = replace(ready.job, recipient=code, name=code, calendar=calendar)
        self.jobs[code] = with_job(plan, job)
        self.truth.need[code] = Counter({name: n for name, (n, _) in KINDS[self.kinds.index(plan)].items()})

    def planned(self) -> list[str]:
        """Plan the chapter as it stands, keep the plan, and return what is wrong with it."""
        state = ChapterState(engine=self.engine, now=self.now)
        plans = {}
        for code, plan in self.jobs.items():
            today = with_job(plan, state.job_now(plan.stage.sized.ready.job))
            plans[code] = state.left(today, state.standing(today), dated=False)
        standing = {code: state.standing(plan) for code, plan in plans.items()}
        made = on_one_calendar(plans, standing, state.shared)
        changes = state.changes(made.plans)
        ids = state.kept(made.plans)
        sums = chapter_json(made.plans, made.note, {}, ids, changes, chapter=made, running=under_way(self.engine))
        rows = shown(self.engine, "plates", self.now.date())
        for row in rows:
            self.truth.plates[row["id"]] = Counter(row["pieces"])
            self.truth.grams[row["id"]] = row["mass_g"] or 0.0
        self.sums: Any = sums
        self.rows = rows
        return faults(sums, rows, self.truth, self.now)

    def happens(self) -> None:
        """Let some hours go by, with what may happen in them."""
        lot, truth = self.lot, self.truth
        until = self.now + timedelta(hours=lot.choice([5, 12, 30, 60]))
        due = sorted((r for r in self.sums["schedule"] if r["start"]), key=lambda r: r["start"])
        for row in due:
            start = datetime.fromisoformat(row["start"])
            if start > until or lot.random() < 0.15:  # forgotten
                continue
            self.over(start)
            if any(on == row["printer"] for _, on, _, _ in truth.running.values()):
                continue
            spool = (row["spool"] or "").split(", ")[0] or lot.choice(list(truth.left_g))
            if any(used == spool for _, _, _, used in truth.running.values()):
                continue
            self.now = max(self.now, start)
            body = {"printer": row["printer"], "spool": spool, "even_so": True}
            told(self.engine, [self._event("started", row["id"], **body)], self.now)
            took_s = next(r["duration_s"] for r in self.rows if r["id"] == row["id"])
            end = self.now + timedelta(seconds=took_s)
            truth.running[row["id"]] = (row["id"].rsplit(".", 1)[0], row["printer"], end, spool)
        self.over(until)
        self.now = max(self.now, until)
        if lot.random() < 0.3:
            self.comes_in()
        if lot.random() < 0.2:
            spool = lot.choice(list(truth.left_g))
            truth.left_g[spool] = float(lot.randint(20, 900))
            told(self.engine, [self._event("weighed", spool, left_g=truth.left_g[spool])], self.now)

        self.leaves()

    def leaves(self) -> None:
        """Let a device that is printed be handed over, and a spool be retired."""
        lot, truth = self.lot, self.truth
        idle = [s for s in truth.left_g if all(s != used for _, _, _, used in truth.running.values())]
        for code, need in truth.need.items():
            runs = any(job == code for job, _, _, _ in truth.running.values())
            if not runs and not need - truth.good.get(code, Counter()) and lot.random() < 0.5:
                told(self.engine, [self._event("handed", code)], self.now)
                truth.gone.add(code)
        if len(truth.left_g) > 1 and idle and lot.random() < 0.15:
            spool = lot.choice(idle)
            del truth.left_g[spool]
            told(self.engine, [self._event("retired", spool)], self.now)

    def over(self, until: datetime) -> None:
        """Let what runs end by a moment: done, failed with some pieces lost, or nobody says so."""
        lot, truth = self.lot, self.truth
        for name, (job, _, end, spool) in sorted(truth.running.items(), key=lambda row: row[1][2]):
            if end > until or lot.random() < 0.2:
                continue
            self.now = max(self.now, end)
            pieces, grams = truth.plates[name], truth.grams[name]
            good = Counter(pieces)
            if lot.random() < 0.3:
                part = lot.choice(sorted(pieces))
                lost = {part: lot.randint(1, pieces[part])} if lot.random() < 0.5 else {}
                good = good - Counter(lost) if lost else Counter()
                event = self._event("failed", name, cause="loose", **({"lost": lost} if lost else {}))
            else:
                event = self._event("done", name)
            told(self.engine, [event], self.now)
            truth.good.setdefault(job, Counter()).update(good)
            truth.left_g[spool] = max(0.0, truth.left_g[spool] - grams)
            del truth.running[name]


def with_job(plan: Plan, job: Any) -> Plan:
    """Return a plan of the same device for another job: it is measured, laid out and asked what widens it once."""
    sized = plan.stage.sized
    known, sized = sized.ready, replace(sized, ready=replace(sized.ready, job=job))
    sized.ready._once.update(known._once)  # no checker looks at what hangs on it
    return replace(plan, stage=replace(plan.stage, job=job, laid=replace(plan.stage.laid, sized=sized)))


@contextmanager
def less_effort() -> Iterator[None]:
    """Search calendars shorter, and ask for no way out: what holds of any calendar holds of a worse one too."""
    efforts = ("PROBE", "MINUTES", "EARLY", "PROOF", "PATIENT", "HELD")
    with ExitStack() as patches:

        def put(module: ModuleType, name: str, value: object) -> None:
            patches.enter_context(mock.patch.object(module, name, value))

        for effort in efforts:
            put(solve, f"{effort}_EFFORT", getattr(solve, f"{effort}_EFFORT") / 10.0)
        put(neighbourhoods, "AIM_EFFORT", {aim: each / 10.0 for aim, each in neighbourhoods.AIM_EFFORT.items()})
        for rounds in ("LATE", "FINISH", "READY"):
            put(solve, f"{rounds}_ROUNDS_N", 2)
        put(solve, "TIMING_VERSION", -1)  # nobody else is given what was found so
        put(solve, "first_calendar", partial(first_calendar, tries_n=30))
        put(timetable, "TRIES_N", 30)
        put(reordered, "MOVES_N", 60)
        put(timed_plan, "_splits", lambda *_: [])
        put(timed_plan, "ways_out", lambda jobs, *_: ((),) * len(jobs))
        put(chapter, "limits_of", lambda *_: None)
        yield


def wrong_in(seed: int, plans: list[Plan], folder: Path, rounds_n: int = 2) -> Iterator[str]:
    """Yield what is wrong in one random chapter over some rounds."""
    one = RandomChapter(seed, plans, folder)
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

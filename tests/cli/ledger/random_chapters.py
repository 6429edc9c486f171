"""Random chapters with events in between, each plan looked at by the checker, and what it says to buy bought."""

from __future__ import annotations

import random
import shutil
from collections import Counter
from collections.abc import Callable
from contextlib import AbstractContextManager, nullcontext
from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any
from uuid import uuid4

from planner.cli.ledger.chapter_printers import blocked_of
from planner.cli.ledger.chapter_state import ChapterState
from planner.job import Attended
from planner.ledger import Event, opened, shown, staff, told, under_way
from planner.ledger import made as new_ledger
from planner.output import chapter_json
from planner.plan import Plan, on_one_calendar
from planner.plan.chapter.chapter import Chapter
from planner.plan.dates.coupon_first import coupon_first
from tests.cli.ledger.chapter_checker import Truth, faults, untrue
from tests.cli.ledger.chapters.chapter_kinds import KINDS, MONDAY, with_job

Whole = Callable[[], AbstractContextManager[None]]
PRINTERS = {"bench-1": "bench-220", "bench-2": "bench-220", "small-1": "small-180"}


class RandomChapter:
    """One chapter: jobs of some kinds, helpers, spools, hours, and what happens to it.

    ``whole`` searches as a chapter does where others search less: what a purchase saves is judged by it.
    """

    def __init__(self, seed: int, plans: list[Plan], folder: Path, whole: Whole = nullcontext) -> None:
        self.whole = whole
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
        names = list(PRINTERS)[: lot.choice([1, 2, 3])]
        until = {n: lot.choice([None, MONDAY.date() + timedelta(days=lot.randint(-3, 6))]) for n in names}
        self.truth.coupon_until = {name: day for name, day in until.items() if day is not None}
        told_until = {name: day.isoformat() if day else None for name, day in until.items()}
        self.truth.own = {name for name in names if PRINTERS[name] == "bench-220"}
        self.database = folder / f"ledger{seed}.db"
        self.engine = new_ledger(str(self.database))
        self.jobs: dict[str, Plan] = {}
        self.sums: Any = None
        self.now = MONDAY - timedelta(hours=lot.randint(0, 10))
        events = [
            *(
                self._event(
                    "person", code, roles=sorted(roles), hours_week=hours, away=[day.isoformat() for day in away]
                )
                for code, (roles, hours, away) in people.items()
            ),
            *(
                self._event(
                    "printer",
                    name,
                    profile=PRINTERS[name],
                    attended=weeks.get(name, []),
                    calibrated_until=told_until[name],
                )
                for name in names
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
            coupon="always" if self.lot.random() < 0.3 else "never",
        )
        job = replace(ready.job, recipient=code, name=code, calendar=calendar)
        self.jobs[code] = with_job(plan, job)
        if calendar.deadline is not None:
            self.truth.due[code] = calendar.deadline
        if calendar.coupon == "always":
            self.truth.asks[code] = ""
        if self.sums is not None:
            self.truth.come_late[code] = self.now
        self.truth.need[code] = Counter({name: n for name, (n, _) in KINDS[self.kinds.index(plan)].items()})

    def planned(self) -> list[str]:
        """Plan the chapter as it stands, keep the plan, and return what is wrong with it."""
        state, truth = ChapterState(engine=self.engine, now=self.now), self.truth
        made = self._made(state)
        changes = state.changes(made.plans)
        ids = state.kept(made.plans)
        self.sums = self._sums(made, changes, ids)
        self.rows = shown(self.engine, "plates", self.now.date())
        for row in self.rows:
            truth.plates[row["id"]] = Counter(row["pieces"])
            truth.grams[row["id"]] = row["mass_g"] or 0.0
        found = faults(self.sums, self.rows, truth, self.now)
        return [*found, *self.bought_in_vain()]

    def _made(self, state: ChapterState) -> Chapter:
        """Return the chapter as it stands on one calendar; what waits for blocked printers is left out."""
        plans, printers = {}, staff(self.engine)[1]
        self.truth.begun = {
            row["id"].rsplit(".", 1)[0]
            for row in shown(self.engine, "plates", self.now.date())
            if row["state"] in ("running", "done", "failed") and row["printer"] not in self.truth.blocked
        }
        for code, plan in self.jobs.items():
            job = state.job_now(plan.stage.sized.ready.job, stand_in=False)
            today = with_job(plan, job)
            coupon = coupon_first(job, today.stage.sized.material, (), self.now.date())
            if code in self.truth.asks:
                self.truth.asks[code] = job.printer.name
            left = state.left(
                replace(today, stage=replace(today.stage, coupon=coupon)), state.standing(today), dated=False
            )
            if not left.plates or blocked_of(left.job, printers) is None:
                plans[code] = left
        standing = {code: state.standing(plan) for code, plan in plans.items()}
        return on_one_calendar(plans, standing, state.shared)

    def _sums(self, made: Chapter, changes: Any = (), ids: Any = None) -> Any:
        """Return a plan's JSON."""
        running = under_way(self.engine)
        told_of: dict[str, Any] = {"chapter": made, "running": running, "now": self.now}
        return chapter_json(made.plans, made.note, {}, ids or {}, changes, **told_of)

    def bought_in_vain(self) -> list[str]:
        """Return what is untrue of what one more spool, printer or helper is said to buy: each bought, and planned again."""
        found = list[str]()
        for number, buy in enumerate((self.sums["bottleneck"] or {}).get("buys", ())):
            events = self._purchase(buy["what"])
            if not events or not (buy["days"] or buy["devices"]):
                continue
            copy = self.database.with_name(f"{self.database.stem}-{number}.db")
            self.engine.dispose()
            shutil.copy(self.database, copy)
            mine, self.engine = self.engine, opened(str(copy))
            told(self.engine, events, self.now)
            if any(untrue(buy, self.sums, self._anew())):
                with self.whole():
                    found += untrue(buy, self.sums, self._anew())
            self.engine.dispose()
            self.engine = mine
        return found

    def _anew(self) -> Any:
        """Return the chapter's plan made again, which nobody keeps."""
        return self._sums(self._made(ChapterState(engine=self.engine, now=self.now)))

    def _purchase(self, what: str) -> list[Event]:
        """Return the events of a purchase; none for hours, which stand in the jobs."""
        words = what.removeprefix("one more ").split()
        if words[0] == "spool":
            row = {"material": "petg", "colour": words[-1], "lot": "L", "left_g": 1000.0, "printer": ""}
            return [self._event("spool", "S-more", **row)]
        if words[0] == "printer":
            own: dict[str, Any] = {"profile": PRINTERS[words[-1]], "attended": [], "calibrated_until": None}
            return [self._event("printer", "one-more", **own)]
        if words[0] == "helper":
            roles = ["fitter", "maker", "tester"]
            return [self._event("person", "M-9", roles=roles, hours_week=float(words[2]), away=[])]
        return []

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
        self.blocks()

    def blocks(self) -> None:
        """Let a printer wait for its coupon, and one that waited be measured."""
        lot, truth = self.lot, self.truth
        for name in sorted(truth.blocked):
            if lot.random() < 0.5:
                until = self.now.date() + timedelta(days=lot.randint(0, 9))
                body = {"nozzle_mm": 0.4, "material": "petg", "until": until.isoformat()}
                told(self.engine, [self._event("measured", name, **body)], self.now)
                truth.blocked.remove(name)
                truth.coupon_until[name] = until
        ready = sorted(truth.own - truth.blocked)
        if ready and lot.random() < 0.25:
            name = lot.choice(ready)
            told(self.engine, [self._event("blocked", name, why="it is off")], self.now)
            truth.blocked.add(name)

    def leaves(self) -> None:
        """Let a device that is printed be handed over, and a spool be retired."""
        lot, truth = self.lot, self.truth
        idle = [s for s in truth.left_g if all(s != used for _, _, _, used in truth.running.values())]
        for code, need in truth.need.items():
            runs = any(job == code for job, _, _, _ in truth.running.values())
            if not runs and not need - truth.good.get(code, Counter()) and lot.random() < 0.5:
                told(self.engine, [self._event("tested", code, passed=True), self._event("handed", code)], self.now)
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

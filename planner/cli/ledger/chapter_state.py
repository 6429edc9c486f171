"""A chapter's plan from what its ledger knows, and what the ledger then keeps of the plan."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any
from uuid import uuid4

from planner.cli.ledger.chapter_printers import blocked_of, ran_out, windows_told, with_printers
from planner.cli.ledger.first_articles import off_the_bed, whole_minute
from planner.cli.ledger.history.as_learned import history_of
from planner.cli.ledger.history.forecast_action import forecast_json, forecast_of
from planner.cli.ledger.kept_rows import job_body, made_of, plate_row, stood_of
from planner.cli.ledger.moved_plates import moved
from planner.errors import LedgerError
from planner.finding import Verdict
from planner.job import Job, Spool
from planner.ledger import (
    Event,
    as_planned,
    code_of,
    devices_that_took,
    job_and_number,
    plate_id,
    printed,
    shown,
    staff,
    tested_devices,
    told,
    under_way,
    untold,
)
from planner.packing import counted
from planner.plan import (
    Drawn,
    Leads,
    Plan,
    Progress,
    Shared,
    Standing,
    left_to_print,
    make_plan,
    make_undated,
    prepare,
)
from planner.schedule import Helper

if TYPE_CHECKING:
    from sqlalchemy.engine import Engine

Row = dict[str, Any]
BEGUN = ("running", "done", "failed")
"""States of a plate that was started."""
BUILT = ("fitted", "handed", "ended", "forgotten")
"""States of a device on which no hands have to work any more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChapterState:
    """A ledger at a moment: plans begin no sooner, and from what is printed by then.

    Profiles of printers are read from ``folder``; ``money`` is what the chapter's file says of it.
    """

    engine: Engine
    now: datetime
    folder: Path = Path()
    money: Mapping[str, Any] = field(default_factory=dict)
    leads: Leads = field(default_factory=Leads)
    """Days from an order to its arrival."""

    @property
    def begin(self) -> datetime:
        """The next whole minute: calendars count in minutes."""
        return whole_minute(self.now)

    @property
    def shared(self) -> Shared:
        """What all jobs share: people and money."""
        people = [
            Helper(
                code=row["code"],
                roles=tuple(row["roles"]),
                week_h=row["hours_week"],
                away=frozenset(date.fromisoformat(day) for day in row["away"]),
            )
            for row in staff(self.engine)[0]
        ]
        # where nobody is told to build, the jobs' own hands do it
        helpers = tuple(people) if any("maker" in person.roles for person in people) else ()
        return Shared(helpers=helpers, **self.money)

    @property
    def bought(self) -> dict[str, float]:
        """What is in stock, by name: what was bought, less what fitted devices took."""
        return {row["name"]: row["n"] for row in shown(self.engine, "stock", self.now.date())}

    @property
    def took(self) -> frozenset[str]:
        """The recipients whose devices took out of the stock what they are made of, or take nothing more."""
        rows = shown(self.engine, "recipients", self.now.date())
        return devices_that_took(self.engine) | {str(row["job"]) for row in rows if row["state"] in BUILT}

    def job_now(self, job: Job, *, stand_in: bool = True) -> Job:
        """Return a job as it is now: it begins now at the earliest, with the ledger's spools and printers.

        What was printed was looked at; the printer was measured before the first plate, failed or not. One that is
        blocked now tells nothing about another that takes its place; ``stand_in``: one of another kind may.

        Raises
        ------
        LedgerError
            Where the job has no code.
        """
        if not job.recipient:
            todo = 'write recipient = "R-07" into [job]'
            raise LedgerError(where=str(job.path), wrong="the job has no recipient's code for the ledger", todo=todo)
        code_of(job.recipient, f"{job.path} recipient")
        spools = tuple(
            Spool(material=row["material"], colour=row["colour"], left_g=row["left_g"], id=row["id"])
            for row in shown(self.engine, "spools", self.now.date())
            if not row["retired"]
        )
        calendar, begun, printers = job.calendar, False, staff(self.engine)[1]
        if calendar is not None and calendar.start is not None:
            plates, barred = self._plates(job.recipient), {row["name"] for row in printers if row.get("blocked")}
            looked_at = any(row["state"] == "done" for row in plates)
            begun = any(row["state"] in BEGUN and row["printer"] not in barred for row in plates)
            waits = off_the_bed(self.engine, job) if calendar.first_article and not looked_at else []
            calendar = replace(
                calendar,
                start=max(calendar.start, self.begin, *waits),
                first_article=calendar.first_article and not looked_at and not waits,
                joint_first=calendar.joint_first and not looked_at,
            )
        job = replace(job, calendar=calendar, spools=spools or job.spools)
        today, coupons = self.now.date(), shown(self.engine, "coupons", self.now.date())
        history = history_of(self.engine, self.folder, self.now)
        job = with_printers(job, printers, self.folder, today, coupons, history, stand_in=stand_in)
        if calendar is not None and begun and not ran_out(job, printers, today, coupons):
            job = replace(job, calendar=replace(calendar, coupon="never"))
        return job

    def standing(self, plan: Plan) -> Standing:
        """Return how things stand for a job: what runs, what the last plan said, what running plates draw."""
        code, made, runs = plan.job.recipient, made_of(plan), under_way(self.engine)
        ends = {row["printer"]: max(row["end"], self.begin) for row in runs}
        mine = [ends[row["printer"]] for row in runs if row["job"] == code]
        reserve = plan.job.limits.spool_reserve.value
        drawn = dict[str, Drawn]()
        for row in (row for row in runs if row["spool"]):
            grams, span = reserve * (row["mass_g"] or 0.0), (self.begin, max(row["end"], self.begin))
            drawn[row["spool"]] = drawn.get(row["spool"], Drawn()) + Drawn(grams=grams, spans=(span,))
        last = as_planned(self.engine, code)
        stood = [stood_of(row) for row in last if all(p["made_as"] == made.get(p["part"]) for p in row["pieces"])]
        hours = {row["name"]: windows_told(row["attended"]) for row in staff(self.engine)[1] if row["attended"]}
        return Standing(
            stood=tuple(stood),
            running=ends,
            until=max(mine, default=None),
            drawn=drawn,
            hours=hours,
            built=self._state(code) in BUILT,
            tested=code in tested_devices(self.engine),
        )

    def planned(self, job: Job, today: date, progress: Progress) -> Plan:
        """Return what is left to print of a job as it is now, without dates: the schedule of all jobs gives them.

        Where the last plan's plates stay, they do; else plates are parted for the job's dates as if it were alone.

        Raises
        ------
        AllBlockedError
            Where something is left to print, all printers of the job are blocked, and no other can stand in.
        """
        left = self._planned(self.job_now(job), today, progress)
        if left.plates or left.stage.laid.missing:
            self.refuse_blocked(job, left)
        return left

    def refuse_blocked(self, job: Job, plan: Plan) -> None:
        """Raise what is said where all printers of a job are blocked, and by its plan none that stands in prints it.

        A no on another kind of printer says nothing about the job's own: it waits for that one.
        """
        rows = staff(self.engine)[1]
        waits = blocked_of(plan.job, rows)
        barred = [f for f in plan.findings if f.verdict is Verdict.NO_GO] or list(plan.stage.laid.missing)
        if waits is None and barred:
            told = f"{plan.job.printer.name} cannot stand in: {barred[0].part or barred[0].feature}: {barred[0].why}"
            waits = blocked_of(self.job_now(job, stand_in=False), rows, told)
        if waits is not None:
            raise waits

    def _planned(self, job: Job, today: date, progress: Progress) -> Plan:
        """Return what is left to print of a job, whatever its printers wait for."""
        ready = prepare(job, today, progress)
        if self._plates(job.recipient):
            plan = make_undated(ready, progress)
            standing = self.standing(plan)
            left = self.left(plan, standing, dated=False)
            if standing.stood or not left.plates:
                return left
        plan = make_plan(ready, progress)
        return self.left(plan, self.standing(plan), dated=False)

    def left(self, plan: Plan, standing: Standing, but: str = "", *, dated: bool = True) -> Plan:
        """Return what is left to print of a job; nothing where the device is handed over.

        Pieces that were printed from another mesh, or at another size, are printed again; those that run are not,
        ``but`` one plate that is going wrong.
        """
        code, made = plan.job.recipient, made_of(plan)
        have, _ = printed(self.engine, code, made)
        done = [row["pieces"] for row in self._plates(code) if row["state"] == "done"]
        for row in under_way(self.engine):
            if row["job"] == code and row["id"] != but:
                pieces = {p["part"]: p["n"] for p in row["pieces"] if p["made_as"] == made.get(p["part"])}
                have, done = have + Counter(pieces), [*done, pieces]
        if self._state(code) in ("handed", "ended"):
            done = [counted(plate.placements) for plate in plan.plates]
            have = sum((Counter(pieces) for pieces in done), Counter())
        return left_to_print(plan, have, done, standing, dated=dated)

    def changes(self, plans: Mapping[str, Plan]) -> list[Row]:
        """Return what is otherwise than the last plan said, and why: pieces that no longer count, other days."""
        rows = []
        for plan in plans.values():
            for part, n in printed(self.engine, plan.job.recipient, made_of(plan))[1].items():
                was = f"{part} x {n} printed"
                why = "its mesh or its size is another one now"
                rows.append({"job": plan.job.recipient, "was": was, "now": "no longer counted", "why": why})
        return [*rows, *moved(self.engine, list(plans.values()), self.begin)]

    def forecast(self) -> Row:
        """Return what the months to come bring by the ledger's own history, as plain JSON types."""
        ahead = forecast_json(forecast_of(self.engine, self.folder, self.now))
        return {**{key: ahead[key] for key in ("forecast", "waiting_days")}, "forecast_missing": ahead["missing"]}

    def _state(self, code: str) -> str:
        """Return the state of a job's device; open where it is new."""
        jobs = shown(self.engine, "recipients", self.now.date())
        return next((str(row["state"]) for row in jobs if row["job"] == code), "open")

    def kept(self, plans: Mapping[str, Plan], seen: int | None = None) -> dict[str, dict[int, str]]:
        """Keep the jobs and plates of a chapter in the ledger; return by folder the id of every plate.

        A plate of the same pieces on the same printer keeps its id, a new one gets the next number of its job.
        ``seen`` is the journal's last line when the plan was begun.

        Raises
        ------
        LedgerError
            Where two jobs have one code.
        ToldSinceError
            Where somebody told what a plan hangs on while it was made; nothing is kept then.
        """
        ids, events, codes = dict[str, dict[int, str]](), list[Event](), dict[str, str]()
        for folder, plan in plans.items():
            code = plan.job.recipient
            if code in codes:
                todo = "give each a code of its own, such as R-07a"
                raise LedgerError(where=code, wrong=f"{codes[code]} and {folder} have one code", todo=todo)
            codes[code] = folder
            ids[folder] = self._ids(plan)
            rows = [plate_row(plan, number, name) for number, name in ids[folder].items()]
            events += [self._event("job", code, job_body(plan)), self._event("plates", code, {"plates": rows})]
        told(self.engine, untold(self.engine, events), self.now, seen, of_all=True)
        return ids

    def _ids(self, plan: Plan) -> dict[int, str]:
        """Return the id of every plate of a plan, by number."""
        known = self._plates(plan.job.recipient)
        free = [row for row in known if row["state"] == "planned"]
        last = max((job_and_number(row["id"])[1] for row in known), default=0)
        found: dict[int, str] = {}
        for plate in plan.plates:
            pieces, printer = counted(plate.placements), plate.printer or plan.job.printer.name
            same = [row for row in free if row["pieces"] == pieces]
            same.sort(key=lambda row: row["printer"] != printer)
            if same:
                free.remove(same[0])
                found[plate.number] = same[0]["id"]
            else:
                last += 1
                found[plate.number] = plate_id(plan.job.recipient, last)
        return found

    def _plates(self, code: str) -> list[Row]:
        """Return the ledger's plates of a job."""
        return [row for row in shown(self.engine, "plates", self.now.date()) if job_and_number(row["id"])[0] == code]

    def _event(self, kind: str, code: str, body: Row) -> Event:
        """Return an event of the plan."""
        return Event(key=uuid4().hex, at=self.now, kind=kind, subject=code, role="lead", body=body)

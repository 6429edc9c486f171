"""A chapter's plan from what its ledger knows, and what the ledger then keeps of the plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING, Any
from uuid import uuid4

from planner.errors import LedgerError
from planner.job import Job, Spool
from planner.ledger import Event, code_of, job_and_number, plate_id, printed, shown, told, untold
from planner.packing import counted
from planner.plan import Plan, left_to_print

if TYPE_CHECKING:
    from sqlalchemy.engine import Engine

Row = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChapterState:
    """A ledger at a moment: plans begin no sooner, and from what is printed by then."""

    engine: Engine
    now: datetime

    def job_now(self, job: Job) -> Job:
        """Return a job as it is now: it begins now at the earliest, with the spools of the ledger.

        What was printed was looked at, and its printer measured, before its first plate.

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
        )
        calendar = job.calendar
        if calendar is not None and calendar.start is not None:
            begun = bool(printed(self.engine, job.recipient))
            calendar = replace(
                calendar,
                start=max(calendar.start, self.now),
                first_article=calendar.first_article and not begun,
                joint_first=calendar.joint_first and not begun,
                coupon="never" if begun else calendar.coupon,
            )
        return replace(job, calendar=calendar, spools=spools or job.spools)

    def left(self, plan: Plan) -> Plan:
        """Return what is left to print of a job."""
        done = [row["pieces"] for row in self._plates(plan.job.recipient) if row["state"] == "done"]
        return left_to_print(plan, printed(self.engine, plan.job.recipient), done)

    def kept(self, plans: Mapping[str, Plan]) -> dict[str, dict[int, str]]:
        """Keep the jobs and plates of a chapter in the ledger; return by folder the id of every plate.

        A plate of the same pieces on the same printer keeps its id, a new one gets the next number of its job.

        Raises
        ------
        LedgerError
            Where two jobs have one code.
        """
        ids: dict[str, dict[int, str]] = {}
        events, codes = list[Event](), dict[str, str]()
        for folder, plan in plans.items():
            code = plan.job.recipient
            if code in codes:
                todo = "give each a code of its own, such as R-07a"
                raise LedgerError(where=code, wrong=f"{codes[code]} and {folder} have one code", todo=todo)
            codes[code] = folder
            ids[folder] = self._ids(plan)
            rows = [_plate_row(plan, number, name) for number, name in ids[folder].items()]
            events += [self._event("job", code, _job_body(plan)), self._event("plates", code, {"plates": rows})]
        told(self.engine, untold(self.engine, events), self.now)
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


def _job_body(plan: Plan) -> Row:
    """Return what the ledger keeps of a job: the device, the measures, the holds that somebody lifted; no name."""
    job = plan.job
    measures = [
        {"kind": m.kind, "length_mm": m.recipient_mm, "taken": m.taken.isoformat() if m.taken else None}
        for m in job.size.measures
    ]
    solids = plan.stage.sized.ready.from_files[0]
    parts = [{"part": p.name, "n": p.printed_n, "sha256": solids[p.name].sha256} for p in job.parts]
    overrides = [{"rule": o.rule, "part": o.part, "role": o.role, "reason": o.reason} for o in job.overrides]
    deadline = job.calendar.deadline if job.calendar else None
    return {
        "scale_percent": plan.scale_percent,
        "deadline": deadline.isoformat() if deadline else None,
        "measures": measures,
        "parts": parts,
        "overrides": overrides,
    }


def _plate_row(plan: Plan, number: int, name: str) -> Row:
    """Return what the ledger keeps of a plate."""
    plate = next(plate for plate in plan.plates if plate.number == number)
    run = next((run for run in plan.runs if run.plate == number), None)
    pieces = []
    for part, n in counted(plate.placements).items():
        places = [[p.x_mm, p.y_mm, p.turn_deg] for p in plate.placements if p.part == part]
        pieces.append({"part": part, "n": n, "places": places})
    return {
        "id": name,
        "printer": (run.printer if run else "") or plate.printer or plan.job.printer.name,
        "material": plate.group.material,
        "colour": plate.group.colour,
        "mass_g": plate.mass_g.value if plate.mass_g else None,
        "duration_s": plate.duration_s.value,
        "start": run.start.isoformat() if run and run.start else None,
        "end": run.end.isoformat() if run and run.end else None,
        "pieces": pieces,
    }

"""The record of one device: what it is of, and what people fill in.

It stays English in every language, file and paper alike: the program reads its keys and the names of tests and lots,
and a record has to read the same to whoever opens it later. All other papers speak the family's language.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, fields
from datetime import date
from typing import Literal

from planner.job import Language
from planner.output.paper_files.page_size import PaperName
from planner.output.papers.function_test import trials_of
from planner.plan import Plan

Result = Literal["pass", "fail", ""]
ROLES = ("printed", "assembled", "tested", "handed_over")
"""What somebody answers for, by role; in the record each is a key of ``[role]``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Of:
    """What a record is of: a plan's own words, written by the program."""

    job: str
    recipient: str
    scale_percent: float
    side: str
    printer: str
    material: str
    parts_sha256: str
    """Over name, count, side, size and file of every part: all of them make the device."""
    settings_sha256: str
    """Over every value of the print settings: fewer contours, another device. Empty in older records."""
    paper: PaperName
    language: Language | None = None
    """Of the hand-over sheet and the labels; None in records of before, then it is the job's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """The outcome of one trial."""

    trial: str
    result: Result
    reading: str
    remark: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """Where a material comes from, so that a bad one can be found again."""

    of: str
    lot: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A measure of the recipient as it is now; ``recipient_mm`` and ``taken`` None while nobody has measured."""

    name: str
    recipient_mm: float | None
    taken: date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Lift:
    """Something missing that a person answers for."""

    item: str
    role: str
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """A whole record, as far as it is filled in."""

    of: Of
    trials: tuple[Tried, ...] = ()
    tested_on: date | None = None
    lots: tuple[Lot, ...] = ()
    measures: tuple[Taken, ...] = ()
    roles: tuple[tuple[str, str], ...] = ()
    lifts: tuple[Lift, ...] = ()


def of_plan(plan: Plan, paper: PaperName) -> Of:
    """Return what a record of this plan is of."""
    job = plan.job
    lines = [
        "\t".join(
            (p.part.name, str(p.part.count), str(p.mirrored), *(f"{s:.4f}" for s in p.scale_percent), p.survey.sha256)
        )
        for p in plan.parts
    ]
    values = [
        f"{field.name}\t{getattr(value, 'value', value)}"
        for field in fields(job.settings)
        if field.name != "name"
        for value in [getattr(job.settings, field.name)]
    ]
    return Of(
        job=job.name,
        recipient=job.recipient,
        scale_percent=round(plan.scale_percent, 6),
        side=job.size.side or "",
        printer=job.printer.name,
        material=plan.material.name,
        parts_sha256=hashlib.sha256("\n".join(lines).encode()).hexdigest(),
        settings_sha256=hashlib.sha256("\n".join(values).encode()).hexdigest(),
        paper=paper,
        language=job.language,
    )


def lots_of(plan: Plan) -> tuple[str, ...]:
    """Return every material whose lot is asked for: filament by colour, metal by size, cord, webbing, padding."""
    names = [f"{plate.group.material} {plate.group.colour}" for plate in plan.plates]
    names += [f"{line.kind} {line.size}" for line in plan.hardware if not line.printed]
    names += [f"{cut.kind} {cut.width_mm:g} mm" for cut in plan.cuts if cut.width_mm]
    return tuple(dict.fromkeys(names))


def blank(plan: Plan, paper: PaperName) -> Record:
    """Return the record of a plan before anybody filled it in; measures are those of the job."""
    return Record(
        of=of_plan(plan, paper),
        trials=tuple(Tried(trial=trial.name, result="", reading="", remark="") for trial in trials_of(plan)),
        lots=tuple(Lot(of=name, lot="") for name in lots_of(plan)),
        measures=tuple(Taken(name=m.name, recipient_mm=m.recipient_mm, taken=m.taken) for m in plan.job.size.measures),
        roles=tuple((role, "") for role in ROLES),
    )

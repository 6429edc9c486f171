"""The doubts of a job: what each part does, and what goes into the bores whose hardware was guessed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from planner.assembly.claim import bores_near
from planner.assembly.doubts.doubt import Doubt, Option
from planner.job import Duty, Edit, Hardware, Job, Part
from planner.survey import Survey

DUTY_CLAUSES: Mapping[Duty, tuple[str, float]] = {
    "load": ("it carries load", 0.5),
    "shell": ("it is a shell that carries little", 0.2),
    "cover": ("it only covers", 0.2),
    "pin": ("it is a pin or an axle", 0.1),
}
"""What an answer says, as a clause after "if", and its share where the form says nothing."""


def doubts_of(job: Job, surveys: Mapping[str, Survey]) -> tuple[Doubt, ...]:
    """Return every question that the job leaves open and that one answer closes."""
    return (*_duties(job), *_hardware(job, surveys))


def _duties(job: Job) -> list[Doubt]:
    """Return one doubt for all parts of one guessed duty."""
    roles: dict[Duty, list[Part]] = defaultdict(list)
    for part in job.parts:
        if part.duty is None or job.guessed:
            roles[part.judged_duty].append(part)
    return [
        Doubt(
            id=f"duty-{duty}",
            text=f"What do {', '.join(part.name for part in parts)} do?",
            options=tuple(
                Option(
                    name=name,
                    text=clause,
                    edits=tuple(Edit(table="part", name=part.name, put={"duty": name}) for part in parts),
                    share=share,
                )
                for name, (clause, share) in DUTY_CLAUSES.items()
            ),
            default=duty,
            features=tuple((part.name, "") for part in parts),
        )
        for duty, parts in roles.items()
    ]


def _hardware(job: Job, surveys: Mapping[str, Survey]) -> list[Doubt]:
    """Return one doubt for each piece of hardware that was guessed from bores."""
    return [_bores(job, hardware, surveys) for hardware in job.hardware if job.guessed and hardware.bore_mm]


def _bores(job: Job, hardware: Hardware, surveys: Mapping[str, Survey]) -> Doubt:
    """Return the doubt about the bores of one size."""
    drawn = hardware.bore_mm or hardware.diameter_mm
    return Doubt(
        id=f"bores-{drawn:.1f}-{hardware.fit}",
        text=f"What goes into the bores of {drawn:.1f} mm?",
        options=(
            Option(
                name=hardware.name.split(" in ")[0].lower().replace(" ", "-"),
                text=f"it is {hardware.name.split(' in ')[0]}",
                edits=(),
                share=0.6,
            ),
            Option(
                name="nothing",
                text="nothing goes in",
                edits=(
                    Edit(table="hardware", name=hardware.name, drop=True),
                    *(Edit(table="part", name=part, put={"ignore_bores": True}) for part in hardware.joins),
                ),
                share=0.4,
            ),
        ),
        default=hardware.name.split(" in ")[0].lower().replace(" ", "-"),
        features=tuple(
            (part, bore.id) for part in hardware.joins for bore in bores_near(surveys[part], drawn, job.limits)
        ),
    )

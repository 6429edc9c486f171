"""Hands: the work that follows the last plate, with its waits."""

from __future__ import annotations

from planner.job import read_hands_on
from planner.plan.plates.plate_inputs import PlateInputs
from planner.schedule import Step, Wall

FIT = "fit with the recipient"
"""The step that a job agrees on a day for."""


def hand_steps(inputs: PlateInputs, wall: Wall) -> tuple[Step, ...]:
    """Return the work after the last plate, in order: clean, drill, assemble, pad, cord, settle, test, fit."""
    job, works_n, times = inputs.job, inputs.works_n, read_hands_on()
    supported = sum(p.part.printed_n for p in inputs.parts if p.estimate is not None and p.estimate.needs_support)
    hardware, cords = sum(h.count for h in job.hardware), sum(c.count for c in job.cords)
    straps = sum(s.count for s in job.straps)
    source = times.support_min.source
    rows: list[tuple[str, float, str]] = [
        ("take off support", supported * times.support_min.value, f"{supported} copies with support"),
        ("drill and ream", works_n * times.drill_min.value, f"{works_n} openings"),
        ("assemble", hardware * times.hardware_min.value, f"{hardware} pieces of hardware"),
        ("pad", len(job.paddings) * times.padding_min.value, f"{len(job.paddings)} pads"),
        ("strap", straps * times.strap_min.value, f"{straps} straps"),
        ("thread and tension cords", cords * times.cord_min.value, f"{cords} cords"),
    ]
    told = job.hands
    if told.finish_min is not None:
        rows = [("finish", told.finish_min, "[hands] finish_min"), *rows[2:]]
    if told.assemble_min is not None:
        rows = [*rows[:-4], ("assemble", told.assemble_min, "[hands] assemble_min")]
    steps: list[Step] = []

    def add(name: str, minutes: float, why: str, wait: float = 0.0, not_before: int = 0, role: str = "maker") -> None:
        steps.append(
            Step(
                name=name,
                takes_min=round(minutes),
                after=(steps[-1].name,) if steps else (),
                wait_min=round(wait),
                not_before_min=not_before,
                why=why if why.startswith("[hands]") else f"{why}; {source}",
                role=role,
            )
        )

    for name, minutes, why in rows:
        if minutes:
            add(name, minutes, why)
    if cords:
        settle = times.settle_min.value
        why = f"{cords} cords, {settle / 60:.0f} h after they were tensioned"
        add("tension cords again", cords * times.retension_min.value, why, settle)
    test_min, why = (
        (times.test_min.value, "the function test form")
        if told.test_min is None
        else (told.test_min, "[hands] test_min")
    )
    add("test the function", test_min, why, role="tester")
    if job.calendar and job.calendar.fitting:
        minute = max(0, round(wall.minutes_to(job.calendar.fitting)))
        add(FIT, times.fitting_min.value, "the day that was agreed", not_before=minute, role="fitter")
    return tuple(steps)

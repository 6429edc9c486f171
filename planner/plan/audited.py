"""From a plan and a program to an audit: which plate it is, and where the two differ."""

from __future__ import annotations

from pathlib import Path

from planner.errors import CommandError
from planner.gcode import Audit, Expected, ExpectedPart, Measured, audit, match_plate, measure
from planner.job import printer_named
from planner.packing import counted
from planner.phrases import listed
from planner.plan.plan_record import Plan
from planner.plan.planned_part import PlannedPart


def audited(plan: Plan, path: Path, plate: int | None) -> tuple[Measured, Expected, Audit]:
    """Measure a program and compare it with a plate of the plan; without a number, with the one that it fits best.

    Raises
    ------
    CommandError
        There is no such plate, or a part of it is not sound.
    """
    plates = [meant_plate(plan, one.number) for one in plan.plates if plate in (None, one.number)]
    if not plates:
        known = ", ".join(str(one.number) for one in plan.plates) or "none"
        raise CommandError(
            where=f"--plate {plate}", wrong="the plan has no such plate", todo=f"its plates are: {known}"
        )
    by_printer = {one.printer.name: measure(path, one.printer) for one in plates}
    matched = [(one, match_plate(by_printer[one.printer.name], one)) for one in plates]
    best, islands = max(matched, key=lambda pair: pair[1].matching.alike_share)
    measured = by_printer[best.printer.name]
    return measured, best, audit(measured, best, islands)


def meant_plate(plan: Plan, number: int) -> Expected:
    """Return what the plan means one plate to be."""
    plate = next(one for one in plan.plates if one.number == number)
    by_name = {planned.part.name: planned for planned in plan.parts}
    counts = counted(plate.placements)
    unsound = [name for name in counts if not by_name[name].posed.sound]
    if unsound:
        wrong = f"the mesh of {listed(unsound)} is not sound, so no program can be compared with it"
        raise CommandError(where=f"plate {number}", wrong=wrong, todo="repair the mesh first")
    return Expected(
        plate=number,
        parts=tuple(_meant_part(by_name[name], n) for name, n in counts.items()),
        printer=printer_named(plan.job, plate.printer),
        material=plan.material,
        settings=plan.job.settings_at(plate.group.layer_height_mm),
        duration_s=plate.duration_s.value,
        mass_g=plate.mass_g.value if plate.mass_g else None,
        limits=plan.job.limits,
    )


def _meant_part(planned: PlannedPart, n: int) -> ExpectedPart:
    """Return one part of a plate, with its number of copies."""
    support = planned.estimate is not None and planned.estimate.needs_support
    return ExpectedPart(name=planned.part.name, solid=planned.posed, count=n, support=support)

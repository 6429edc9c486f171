"""One after another: whether a job's printer has the measures for it, and a plate's pieces as times of their own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.finding import Finding, Verdict
from planner.job import Job, Printer
from planner.layers import PartEstimate, plate_duration_s
from planner.packing import InTurn, Placement
from planner.phrases import listed


def asks_in_turn(job: Job) -> bool:
    """Return whether the job asks for copies to be printed one after another."""
    return job.calendar is not None and job.calendar.order == "one-after-another"


def room_of(printer: Printer) -> InTurn | None:
    """Return what a printer leaves free around and above its nozzle; None where nobody measured it."""
    clear, under = printer.head_clear_mm, printer.under_gantry_mm
    return None if clear is None or under is None else InTurn(clear_mm=clear.value, under_mm=under.value)


def turns_of(job: Job, printer: Printer) -> InTurn | None:
    """Return the room that plates for a printer are laid out with; None where copies are printed together."""
    return room_of(printer) if asks_in_turn(job) else None


def turn_findings(job: Job, printer: Printer) -> tuple[Finding, ...]:
    """Hold a job that asks for one after another on a printer whose measures are not known."""
    if not asks_in_turn(job) or room_of(printer) is not None:
        return ()
    ways = [
        (
            printer.head_clear_mm,
            "head_clear_mm",
            "how far the head's body, fans and cables included, reaches sideways from the nozzle's tip at its widest",
        ),
        (
            printer.under_gantry_mm,
            "under_gantry_mm",
            "how high above the nozzle's tip the lowest thing hangs that crosses the bed with the head",
        ),
    ]
    left = [(key, what) for value, key, what in ways if value is None]
    keys = listed(f"{key} = …" for key, _ in left)
    return (
        Finding(
            rule="plate.order",
            part="",
            feature="one after another",
            verdict=Verdict.HOLD,
            why=f"the profile of {printer.name} does not say {', nor '.join(what for _, what in left)}: a head would "
            "hit a finished piece; the plates below are laid out for printing together",
            remedy=f"measure it with a ruler, in mm, and write {keys} into the printer's profile; or take order out of "
            "[plan]",
            source="[plan] order; geometry of the head",
            question=f"On {printer.name}, {', and '.join(what for _, what in left)}?",
        ),
    )


def piece_times_s(
    job: Job,
    placements: Sequence[Placement],
    estimates: Mapping[str, PartEstimate],
    printer: Printer,
    layer_height_mm: float | None,
) -> tuple[float, ...]:
    """Return the time of every piece printed in the order given, in s; the first one's has the heat-up in it."""
    settings, gone, found = job.settings_at(layer_height_mm), 0.0, []
    copies: list[PartEstimate] = []
    for placement in placements:
        copies.append(estimates[placement.part])
        until = plate_duration_s(copies, settings=settings, printer=printer, in_turn=True).value
        found.append(until - gone)
        gone = until
    return tuple(found)

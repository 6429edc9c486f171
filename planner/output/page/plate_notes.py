"""In which order plates are shown, and notes beside each: support, openings that it fills, parts inside others."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.packing import Plate
from planner.plan import Plan, PlannedPart


def plate_notes(plate: Plate, parts: Mapping[str, PlannedPart], nested: Sequence[tuple[str, str]]) -> list[str]:
    """Return sentences; ``nested`` are pairs of parts, the first lying in an opening of the second."""
    notes = [f"Print and try this joint before anything else: {plate.joint}."] if plate.joint else []
    held = [
        (name, part.estimate)
        for name in dict.fromkeys(placement.part for placement in plate.placements)
        if plate.group.support and (part := parts[name]).estimate and part.estimate.needs_support
    ]
    if held:
        each = ", ".join(f"{name} ({found.support_mm3 / 1000:.1f} cm³ per copy)" for name, found in held)
        notes.append(f"Printed on support (hatched): {each}.")
    for name, found in held:
        inside = ", ".join(f"{where} ({mm3 / 1000:.2f} cm³)" for where, mm3 in found.support_inside_mm3.items())
        if inside:
            notes.append(f"Clear the support out of these openings of {name}: {inside}.")
    notes += [f"{inner} lies in an opening of {outer}." for inner, outer in nested]
    return notes


def by_start(plan: Plan) -> list[Plate]:
    """Return the plates in the order in which they start; those without a day come last, by their numbers."""
    starts = {run.plate: run.start for run in plan.runs if run.start is not None}
    return sorted(plan.plates, key=lambda p: (p.number not in starts, str(starts.get(p.number, "")), p.number))

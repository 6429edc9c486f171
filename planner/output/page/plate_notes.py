"""What a maker must know of a plate beside its drawing: what stands on support, what it fills, what lies nested."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.packing import Plate
from planner.plan import PlannedPart


def plate_notes(plate: Plate, parts: Mapping[str, PlannedPart], nested: Sequence[tuple[str, str]]) -> list[str]:
    """Return sentences; ``nested`` are pairs of parts, the first lying in an opening of the second."""
    notes = [f"First article, to try the fit before all else: {plate.joint}."] if plate.joint else []
    held = [
        (name, part.estimate)
        for name in dict.fromkeys(placement.part for placement in plate.placements)
        if plate.group.support and (part := parts[name]).estimate and part.estimate.needs_support
    ]
    if held:
        each = ", ".join(f"{name} ({found.support_mm3 / 1000:.1f} cm³ a copy)" for name, found in held)
        notes.append(f"On support, hatched: {each}.")
    for name, found in held:
        inside = ", ".join(f"{where} ({mm3 / 1000:.2f} cm³)" for where, mm3 in found.support_inside_mm3.items())
        if inside:
            notes.append(f"Support fills openings of {name}, clear them: {inside}.")
    notes += [f"{inner} lies in an opening of {outer}." for inner, outer in nested]
    return notes

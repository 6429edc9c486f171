"""Which slot takes a pin or a screw: one that its axis goes through as drawn, or the only one that is as wide."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from planner.assembly.bore_axes import coaxial
from planner.assembly.pilot_in_part import in_part
from planner.job import Fit, Hardware, Job
from planner.survey import Bore, Slot, Survey

IN_SLOTS = ("binding-post", "dowel-pin", "machine-screw", "wood-screw")
ALONG_COS = 0.05
WIDTH_RATIO = (0.8, 1.5)
"""A slot narrower or wider than this times a bore is not meant for what the bore takes; own judgement."""
SAME_MM = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class SlotClaim:
    """The slots of one part, by their numbers, that one piece of hardware slides in."""

    part: str
    slots: tuple[int, ...]
    hardware: Hardware
    fit: Fit


def slots_on_axis(
    job: Job, surveys: Mapping[str, Survey], wanted: Mapping[tuple[int, str], Sequence[Bore]]
) -> Iterator[tuple[int, str, SlotClaim]]:
    """Yield item, part and claim where the axis of a bore that the item has elsewhere goes through a slot, as drawn.

    A part that has a bore of its own on such an axis takes the piece there, and not in a slot.
    """
    for (item, part), bores in wanted.items():
        hardware = job.hardware[item]
        partners = [bore for other in hardware.joins if other != part for bore in wanted.get((item, other), ())]
        if hardware.kind not in IN_SLOTS or any(coaxial(one, other) for one in bores for other in partners):
            continue
        numbers = tuple(
            n
            for n, slot in _as_wide(surveys[part], in_part(hardware, part))
            if any(in_slot(slot, bore.centre_mm, bore.axis) for bore in partners)
        )
        if numbers:
            yield item, part, _claim(part, numbers, hardware)


def slots_by_width(job: Job, survey: Survey, hardware: Hardware) -> SlotClaim | None:
    """Return the slots of a part without a bore for a piece that it goes through, by their width; None: not known.

    They are as wide as its stated bore, or the only openings that take it. Where webbing goes through the part as well,
    or an opening was not recognised, width alone tells nothing.
    """
    strapped = any(strap.part == survey.name for strap in job.straps)
    if strapped or survey.unrecognised_n or hardware.kind not in IN_SLOTS:
        return None
    like = list(_as_wide(survey, hardware))
    stated = hardware.bore_mm or 0.0
    slack = job.limits.bore_match_percent.value / 100.0 * stated
    near = tuple(n for n, slot in like if abs(slot.width_mm - stated) <= slack)
    widths = [slot.width_mm for _, slot in like]
    one = bool(like) and max(widths) - min(widths) < SAME_MM and min(widths) > hardware.diameter_mm
    numbers = near or (tuple(n for n, _ in like) if one else ())
    return _claim(survey.name, numbers, hardware) if numbers else None


def wide_slot(survey: Survey, hardware: Hardware) -> Slot | None:
    """Return a slot that would take a piece as drawn; None where none would."""
    return next((slot for _, slot in _as_wide(survey, hardware) if slot.width_mm > hardware.diameter_mm), None)


def in_slot(slot: Slot, at_mm: ArrayLike, axis: ArrayLike) -> bool:
    """Return whether a line along a slot's depth goes through it, all in one frame."""
    deep, along = np.asarray(slot.deep_axis), np.asarray(slot.length_axis)
    between = np.asarray(at_mm) - np.asarray(slot.at_mm)
    beside = between - deep * float(between @ deep)
    across = beside - along * float(beside @ along)
    inside = abs(float(beside @ along)) <= slot.length_mm / 2 and float(np.linalg.norm(across)) <= slot.width_mm / 4
    return inside and abs(float(np.asarray(axis) @ deep)) > 1.0 - ALONG_COS


def _as_wide(survey: Survey, hardware: Hardware) -> Iterator[tuple[int, Slot]]:
    """Yield number and slot of every slot of a part that may be meant for a piece, by its width."""
    wanted = hardware.bore_mm or hardware.diameter_mm
    for n, slot in enumerate(survey.slots):
        if WIDTH_RATIO[0] * hardware.diameter_mm < slot.width_mm <= WIDTH_RATIO[1] * wanted:
            yield n, slot


def _claim(part: str, numbers: tuple[int, ...], hardware: Hardware) -> SlotClaim:
    """Return the claim of a piece on slots: it slides there, however it is held elsewhere, unless it turns as well."""
    return SlotClaim(
        part=part, slots=numbers, hardware=hardware, fit="turning" if hardware.fit == "turning" else "sliding"
    )

"""Bind ``slot.pin`` to every slot that hardware slides in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.assembly import SlotClaim, ends_of
from planner.finding import Vec3
from planner.job import Job
from planner.rules.fit.bores.slot_pin import SlotPin
from planner.rules.of_job.bore_rules import undersize_of
from planner.survey import Survey


def slot_pin_rules(
    job: Job, surveys: Mapping[str, Survey], downs: Mapping[str, Vec3], claims: Sequence[SlotClaim]
) -> list[SlotPin]:
    """Return one rule for each piece in each part, about the narrowest and the widest of the slots that it runs in."""
    rules = []
    for claim in claims:
        ends = ends_of(claim.hardware, claim.fit, job.limits, job.tables)
        assert ends is not None  # what slides or turns always has both
        slots = sorted((surveys[claim.part].slots[n] for n in claim.slots), key=lambda slot: slot.width_mm)
        clearance = job.limits.running_turning_mm if claim.fit == "turning" else job.limits.running_sliding_mm
        for slot in dict.fromkeys((slots[0], slots[-1])):
            rules.append(
                SlotPin(
                    part=claim.part,
                    feature=f"slot of {claim.hardware.name}",
                    hardware=claim.hardware.name,
                    width_mm=slot.width_mm,
                    at_mm=slot.at_mm,
                    undersize_mm=undersize_of(job, slot.deep_axis, downs[claim.part])[0],
                    calibrated=job.printer.calibrated,
                    need_mm=ends[0],
                    most_mm=ends[1],
                    file_mm=job.limits.slot_file_mm,
                    source=clearance.source,
                )
            )
    return rules

"""Bores and slots that no rule of fit judges: nobody named hardware for them, or their screw's root is in no table."""

from __future__ import annotations

from planner.assembly import Claim, stays_open
from planner.finding import Finding, Verdict
from planner.job import Job, Part
from planner.rules.fit.part_case import LOADED
from planner.rules.rule import ConstantFinding
from planner.survey import Bore, Survey


def unclaimed(job: Job, part: Part, bore: Bore) -> Finding:
    """Say that no hardware claims a bore: a hold where it may carry; else it is only listed."""
    held = part.judged_duty in LOADED and not part.ignore_bores and not stays_open(job, part.name, bore)
    way = "through" if bore.through else "blind"
    return Finding(
        rule="bore.unclaimed",
        part=part.name,
        feature=bore.id,
        verdict=Verdict.HOLD if held else Verdict.GO,
        measured=bore.drawn_diameter_mm,
        unit="mm",
        at_mm=bore.centre_mm,
        why=f"nothing is named for the {way} bore {bore.id} of {bore.drawn_diameter_mm:.2f} mm, "
        f"so it is not checked against hardware (duty {part.judged_duty})",
        remedy="name its hardware, or list it under [[open]] where nothing goes through" if held else "",
        source="survey of the mesh",
        caution="" if held else "listed only: no hardware claims it",
        question=f"What goes into the {bore.drawn_diameter_mm:.2f} mm bores of {part.name}?" if held else "",
    )


def possible(part: Part, bore: Bore) -> Finding:
    """List a bore that is open at one side or too coarse to be sure of."""
    return Finding(
        rule="bore.possible",
        part=part.name,
        feature=bore.id,
        verdict=Verdict.GO,
        measured=bore.drawn_diameter_mm,
        unit="mm",
        at_mm=bore.centre_mm,
        why=f"{bore.id} looks like a bore of {bore.drawn_diameter_mm:.2f} mm, {bore.coverage_deg:.0f} degrees round, "
        f"{bore.facets_n} facets: not checked",
        source="survey of the mesh",
        caution="listed only: it may be a clip, a fillet or a coarse bore",
    )


def no_root(part: Part, bore: Bore, claims: tuple[Claim, ...]) -> Finding:
    """Say that a pilot cannot be judged without a thread root."""
    name = next(claim.hardware.name for claim in claims if claim.bore is bore)
    return Finding(
        rule="bore.pilot",
        part=part.name,
        feature=bore.id,
        verdict=Verdict.HOLD,
        at_mm=bore.centre_mm,
        why=f"the thread root of {name} is in no table, so its pilot bore {bore.id} cannot be judged",
        remedy="state a diameter of the hardware tables",
        source="hardware tables",
        question=f"What is the thread root of {name}, in mm?",
    )


def listed_slots(part: Part, survey: Survey, claimed: set[int]) -> list[ConstantFinding]:
    """List the slots that no strap claims, and no hardware slides in."""
    return [
        ConstantFinding(
            finding=Finding(
                rule="slot.unclaimed",
                part=part.name,
                feature=f"slot {index + 1}",
                verdict=Verdict.GO,
                measured=slot.length_mm,
                unit="mm",
                at_mm=slot.at_mm,
                why=f"no strap is named for an opening of {slot.width_mm:.1f} x {slot.length_mm:.1f} mm",
                source="survey of the mesh",
                caution="listed only: no strap claims it",
            ),
            feature=f"slot {index + 1}",
        )
        for index, slot in enumerate(survey.slots)
        if index not in claimed
    ]

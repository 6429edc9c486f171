"""Cautions, each shown once. Nothing here judges a person."""

from __future__ import annotations

from planner.job import Job, Material
from planner.supplies.supplies import Caution


def cautions(job: Job, material: Material, percent: float, *, work: bool) -> tuple[Caution, ...]:
    """Return the cautions that apply to this job; ``work`` tells that something is drilled, reamed or bushed."""
    always = [
        Caution(
            about="limits of this plan",
            text="It checks geometry and plan only, not strength in use, fit on a body, or medical matters; "
            "a licensed prosthetist or therapist and local rules decide.",
        ),
        Caution(
            about="the printer",
            text="Nozzle and bed are hot. Do not leave a printer running unattended unless your chapter's rule "
            "allows it.",
        ),
    ]
    others = _others(job, material, percent, work=work)
    return (*always, *(Caution(about=about, text=text) for about, text, applies in others if applies))


def _others(job: Job, material: Material, percent: float, *, work: bool) -> list[tuple[str, str, bool]]:
    """Return about, text, and whether it applies."""
    age, low = job.use.recipient_age_years, job.tried_percent[0] if job.tried_percent else None
    return [
        (
            "no test print yet",
            (
                f"The undersize of bores on {job.printer.name} is a usual value, not a measured one: "
                "print and measure a test bore on this printer and spool first."
            ),
            not job.printer.calibrated,
        ),
        ("size", f"No device below {low or 0:g} % is known to have been built.", low is not None and percent < low),
        (
            "small parts",
            (
                "Ask a clinician first if the recipient is under "
                f"{job.limits.small_age_years.value:g} years old, puts "
                "things into the mouth, or has no feeling in the limb; "
                "small parts are judged against the 31.75 mm cylinder of 16 CFR 1501."
            ),
            job.use.mouthing or (age is not None and age < job.limits.small_age_years.value),
        ),
        ("skin", "No bare print on skin: pad it, round its edges, cover metal.", job.on_skin),
        (
            "mirrored parts",
            "Handed parts are mirrored: raised text reads backward, and a printed thread turns the other way.",
            job.size.mirrored and any(part.handed for part in job.parts),
        ),
        ("fumes", f"{material.name} needs an enclosure and ventilation.", material.fumes),
        ("drilling", "Clamp the part, drill slowly by hand or at low speed, wear eye protection.", work),
        (
            "forming by heat",
            (
                f"Do not form shells in hot water: {material.name} softens at {material.softens_c.value:g} °C, and "
                "water that hot scalds. Print the shape that is needed; never heat anything on the wearer."
            ),
            any(part.judged_duty == "shell" for part in job.parts),
        ),
        (
            "release",
            (
                "Hand the device over only when it is released, or when a person lifts the hold and records role and "
                "reason."
            ),
            True,
        ),
    ]

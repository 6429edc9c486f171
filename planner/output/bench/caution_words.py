"""Cautions in the family's language, each with the English of the plan below it until a speaker signs."""

from __future__ import annotations

from planner.job import Job, Material
from planner.output.tongue import ENGLISH_BELOW, Tongue
from planner.supplies import Caution


def caution_words(caution: Caution, job: Job, material: Material, tongue: Tongue) -> str:
    """Return a caution in a language; one that has no message, such as a new one, stands in English alone."""
    said = _messages(job, material, tongue).get(caution.about)
    if tongue.code == "en" or said is None:
        return _english(caution) if tongue.code == "en" else tongue.in_english(_english(caution))
    return f"{said}{ENGLISH_BELOW}{_english(caution)}" if tongue.keeps_english else said


def _english(caution: Caution) -> str:
    """Return a caution as the plan has it, its subject first."""
    return f"{caution.about[:1].upper()}{caution.about[1:]}: {caution.text}"


def _messages(job: Job, material: Material, tongue: Tongue) -> dict[str, str]:
    """Return what cautions say, by what they are about; a test compares the English with the plan's own."""
    say, kept, amount = tongue.say, tongue.kept, tongue.amount
    tried = job.tried_percent[0] if job.tried_percent else 0.0
    return {
        "limits of this plan": say(
            "Limits of this plan: It checks geometry and plan only, not strength in use, fit on a body, or medical "
            "matters; a licensed prosthetist or therapist and local rules decide."
        ),
        "the printer": say(
            "The printer: Nozzle and bed are hot. Do not leave a printer running unattended unless your chapter's rule "
            "allows it."
        ),
        "no test print yet": say(
            "No test print yet: The undersize of bores on {printer} is a usual value, not a measured one: print and "
            "measure a test bore on this printer and spool first.",
            printer=kept(job.printer.name),
        ),
        "size": say(
            "Size: No device below {size} is known to have been built.",
            size=amount(f"{tried:g} %"),
        ),
        "small parts": say(
            "Small parts: Ask a clinician first if the recipient is under {age} years old, puts things into the mouth, "
            "or has no feeling in the limb; small parts are judged against the {mm} cylinder of {rule}.",
            age=f"{job.limits.small_age_years.value:g}",
            mm=amount("31.75 mm"),
            rule=kept("16 CFR 1501"),
        ),
        "skin": say("Skin: No bare print on skin: pad it, round its edges, cover metal."),
        "mirrored parts": say(
            "Mirrored parts: Handed parts are mirrored: raised text reads backward, and a printed thread turns the "
            "other way."
        ),
        "fumes": say(
            "Fumes: {material} needs an enclosure and ventilation.",
            material=kept(material.name),
        ),
        "drilling": say("Drilling: Clamp the part, drill slowly by hand or at low speed, wear eye protection."),
        "forming by heat": say(
            "Forming by heat: Do not form shells in hot water: {material} softens at {heat}, and water that hot "
            "scalds. Print the shape that is needed; never heat anything on the wearer.",
            material=kept(material.name),
            heat=amount(f"{material.softens_c.value:g} °C"),
        ),
        "release": say(
            "Release: Hand the device over only when it is released, or when a person lifts the hold and records role "
            "and reason."
        ),
    }

"""Bind the rules of belts to the parts that they run on."""

from __future__ import annotations

from planner.job import Hardware, Job
from planner.rules.fit.belts.belt_fit import BeltPitch, BeltTight
from planner.rules.of_job.opening_rules import missing
from planner.rules.rule import Rule

SAME_PITCH_MM = 0.01


def belt_rules(job: Job) -> list[Rule]:
    """Return the rules of every belt in every part it runs on: its groove's width, and its teeth's pitch."""
    rules: list[Rule] = []
    for belt in (one for one in job.hardware if one.kind == "belt"):
        for part in belt.joins:
            if belt.bore_mm is None:
                why = "the width of its groove as drawn (bore_mm) is not stated"
                rules.append(missing("belt.missing", part, belt.name, why, "state bore_mm, its width as drawn"))
            else:
                rules.append(
                    BeltTight(
                        part=part,
                        feature=belt.name,
                        opening_mm=belt.bore_mm,
                        strip_mm=belt.diameter_mm,
                        narrower_mm=_narrower(job, belt),
                        clearance_mm=job.limits.of("belt.tight", "clearance_mm"),
                    )
                )
            if belt.pitch_mm is not None:
                most = job.limits.of("belt.pitch", "most_percent")
                rules.append(BeltPitch(part=part, feature=belt.name, pitch_mm=belt.pitch_mm, most_percent=most))
    return rules


def _narrower(job: Job, belt: Hardware) -> tuple[float, ...]:
    """Return the narrower widths in which a toothed belt of this pitch is sold, widest first; none for a round one."""
    sizes = [
        one
        for one in job.tables.sizes("belt")
        if belt.pitch_mm is not None and one.pitch_mm and abs(one.pitch_mm.value - belt.pitch_mm) <= SAME_PITCH_MM
    ]
    return tuple(sorted((w for one in sizes for w in one.lengths_mm if w < belt.diameter_mm), reverse=True))

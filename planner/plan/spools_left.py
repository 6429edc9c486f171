"""Spools for what is left to print: enough for it, also where they were weighed before the plates that are printed."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from planner.finding import Evidence, Finding, Verdict
from planner.plan.plates.plate_sums import by_colour
from planner.plan.stages import Scheduled
from planner.supplies import spool_findings


def spools_left(stage: Scheduled) -> tuple[Finding, ...]:
    """Return whether the spools hold the plates of a stage.

    After a failure nobody knows whether ``left_g`` was weighed before or after the plates that are printed: where
    that decides, the answer is a hold that asks for the scales.
    """
    job, material = stage.job, stage.sized.material
    need_g, used_g = by_colour(stage.plates), stage.printed.used_g
    now = _resting(stage, spool_findings(job, material, need_g))
    if not used_g:
        return now
    reserve = job.limits.spool_reserve.value  # kept for what is left, not for what is used
    both_g = {colour: need_g.get(colour, 0.0) + used_g.get(colour, 0.0) / reserve for colour in {**need_g, **used_g}}
    before = {finding.feature: finding for finding in spool_findings(job, material, both_g)}
    used = sum(used_g.values())
    return tuple(
        _unweighed(finding, used) if finding.verdict.passes and not before[finding.feature].verdict.passes else finding
        for finding in now
    )


def _resting(stage: Scheduled, found: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return findings with what they rest on: usual where the range of the plates' grams decides."""
    ends: tuple[Literal["low", "high"], ...] = ("low", "high")
    others = [
        {f.feature: f.verdict for f in spool_findings(stage.job, stage.sized.material, by_colour(stage.plates, end))}
        for end in ends
    ]
    return tuple(
        replace(finding, evidence=Evidence.USUAL)
        if any(other[finding.feature] is not finding.verdict for other in others)
        else finding
        for finding in found
    )


def _unweighed(finding: Finding, used_g: float) -> Finding:
    """Return the hold of a spool that is enough only if it was weighed after the plates that are printed."""
    return replace(
        finding,
        verdict=Verdict.HOLD,
        why=f"{finding.why}, but too little if left_g was weighed before the printed plates, which took {used_g:.0f} g",
        remedy="weigh the spool now and write what is left into left_g",
        question=f"How many grams are left on the spool of {finding.feature} now?",
    )

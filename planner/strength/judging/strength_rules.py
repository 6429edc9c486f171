"""The rules of strength of one job, from its parts under their loads."""

from __future__ import annotations

from collections.abc import Sequence

from planner.finding import Evidence, Finding, Verdict
from planner.job import Job
from planner.rules import Rule, constants
from planner.scale import Scale
from planner.strength.judging.beam_share import BeamShare
from planner.strength.screened import Screened


def strength_rules(job: Job, parts: Sequence[Screened]) -> tuple[Rule, ...]:
    """Return one rule for every part and kind of load; a hold where a part could not be screened."""
    rules: list[Rule] = []
    for one in parts:
        if one.weakest is None or one.case is None or one.stuff is None:
            rules += constants([unscreened(one.part, one.unknown)])
            continue
        scale = job.part(one.part).scale_percent
        own = min(scale) if isinstance(scale, tuple) else scale
        strengths = one.stuff.strengths
        rules.append(
            BeamShare(
                part=one.part,
                loads=one.case.said,
                known=one.known,
                squared_percent=one.weakest.share_percent,
                at_mm=one.weakest.at_mm,
                direction=one.weakest.direction,
                half_percent=100.0 * job.limits.strength_share.value,
                strength=f"{strengths.along_mpa:g} MPa along, {strengths.across_mpa:g} MPa across the layers",
                own_factor=None if own is None else Scale(own).factor,
            )
        )
    return tuple(rules)


def unscreened(part: str, why: str) -> Finding:
    """Hold a part that could not be screened."""
    return Finding(
        rule="strength.beam",
        part=part,
        feature="weakest place",
        verdict=Verdict.HOLD,
        why=f"where {part} is weakest is not known: {why}",
        remedy="state load_at_mm and load_dir of [[part]], and load_n of [use]",
        source="job file",
        question=f"Where, which way and how hard does the load act on {part}?",
        evidence=Evidence.GUESSED,
    )

"""Bind the rule of printed pegs: one for every bore that a peg of another part may go into."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from planner.assembly import PegInBore, pegs_in_bores
from planner.finding import Vec3
from planner.job import Job, JointKind
from planner.rules.fit.bores.peg_play import PegPlay
from planner.rules.fit.bores.peg_tight import PegTight
from planner.rules.of_job.bore_rules import edge_limit, undersize_of, work_on
from planner.rules.of_job.mates.outside_work import sanded_mm
from planner.rules.of_job.own_scale import own_factor
from planner.sourced import Sourced
from planner.survey import Survey

FIXED: tuple[JointKind, ...] = ("pressed", "fixed", "screwed")
"""Joints in which a peg is held by its bore, or need not go in by hand."""


def peg_rules(
    job: Job,
    surveys: Mapping[str, Survey],
    downs: Mapping[str, Vec3],
    taken: Collection[tuple[str, str]],
    printed: Mapping[tuple[str, str], PegInBore],
) -> dict[tuple[str, str], PegTight]:
    """Return the rule of every bore, by part and bore, that nothing else speaks for and a peg may go into.

    ``printed`` are the pegs that the job names as hardware which is printed.
    """
    every = {**pegs_in_bores(job, surveys, taken), **printed}
    return {key: peg_rule(job, found, downs.get(found.part)) for key, found in every.items()}


def peg_rule(job: Job, found: PegInBore, down: Vec3 | None) -> PegTight:
    """Return the rule of one peg in one bore; ``down`` is how the bore's part lies, None where nobody knows."""
    part, peg_part = job.part(found.part), job.part(found.peg_part)
    need, most = _plays_mm(job, found)
    return PegTight(
        part=found.part,
        bore=found.bore,
        peg_part=found.peg_part,
        peg=found.peg,
        in_place=found.in_place,
        how=found.how,
        fast=found.fast,
        named=found.named,
        need_mm=need,
        most_mm=most,
        play=PegPlay(
            bore_mm=found.bore.diameter_mm - found.tighter_mm,
            peg_mm=found.peg.diameter_mm,
            work=work_on(job, part, found.bore),
            undersize_mm=undersize_of(job, found.bore.axis if down else None, down or (0.0, 0.0, -1.0))[0],
            bore_factor=own_factor(part, found.bore.axis, widest=False),
            peg_factor=own_factor(peg_part, found.peg.axis, widest=True),
            sanded_mm=sanded_mm(job, found.peg_part, found.peg, found.part),
        ),
        edge_need_mm=edge_limit(job, part)[0],
        drill_most_mm=job.limits.of("bore.tight", "drill_most_mm").value,
        scrape_mm=job.limits.of("bore.tight", "scrape_mm").value,
    )


def _plays_mm(job: Job, found: PegInBore) -> tuple[Sourced, Sourced]:
    """Return the least and most play on diameter of a joint; of what turns where nobody has stated it, and it can."""
    limits = job.limits
    if found.how in FIXED:
        return limits.running_held_mm, limits.play_held_mm
    if found.how == "glued":
        return limits.running_held_mm, limits.play_sliding_mm
    turns = found.how == "turns" or (found.how is None and not found.fast)
    if turns:
        return limits.running_turning_mm, limits.play_turning_mm
    return limits.running_sliding_mm, limits.play_sliding_mm

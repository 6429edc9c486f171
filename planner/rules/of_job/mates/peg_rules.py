"""Bind the rule of printed pegs: one for every bore that a peg of another part may go into."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from planner.assembly import PegInBore, pegs_in_bores
from planner.finding import Vec3
from planner.job import Job, JointKind
from planner.rules.fit.bores.peg_tight import PegTight
from planner.rules.of_job.bore_rules import edge_limit, undersize_of, work_on
from planner.sourced import Sourced
from planner.survey import Survey

FIXED: tuple[JointKind, ...] = ("pressed", "fixed", "screwed")
"""Joints in which a peg is held by its bore, or need not go in by hand."""


def peg_rules(
    job: Job, surveys: Mapping[str, Survey], downs: Mapping[str, Vec3], taken: Collection[tuple[str, str]]
) -> dict[tuple[str, str], PegTight]:
    """Return the rule of every bore, by part and bore, that nothing else speaks for and a peg may go into."""
    rules = {}
    for key, found in pegs_in_bores(job, surveys, taken).items():
        part = job.part(found.part)
        rules[key] = PegTight(
            part=found.part,
            bore=found.bore,
            peg_part=found.peg_part,
            peg=found.peg,
            in_place=found.in_place,
            how=found.how,
            fast=found.fast,
            need_mm=_need_mm(job, found),
            undersize_mm=undersize_of(job, found.bore.axis, downs[found.part])[0],
            edge_need_mm=edge_limit(job, part)[0],
            work=work_on(job, part, found.bore),
        )
    return rules


def _need_mm(job: Job, found: PegInBore) -> Sourced:
    """Return the play on diameter that a joint needs; that of what turns where nobody has stated it, and it can."""
    if found.how in FIXED:
        return job.limits.running_held_mm
    turns = found.how == "turns" or (found.how is None and not found.fast)
    return job.limits.running_turning_mm if turns else job.limits.running_sliding_mm

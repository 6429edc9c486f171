"""Bind the rule of what lies between two faces of another part, as drawn in place."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from planner.assembly import CloseFit, joint_between
from planner.finding import Vec3
from planner.job import Job, JointKind
from planner.rules.fit.bores.between_tight import BetweenTight
from planner.rules.fit.bores.peg_play import PegPlay
from planner.rules.fit.bores.worked_bore import WorkedBore
from planner.rules.of_job.bore_rules import undersize_of
from planner.rules.of_job.mates.outside_work import filed_mm
from planner.rules.of_job.own_scale import own_factor

MOVES: tuple[JointKind, ...] = ("turns", "slides")
LEVEL_COS = 0.3
"""A room whose width lies so level on the bed stands upright, as a bore does."""


def between_rules(job: Job, fits: Sequence[CloseFit], downs: Mapping[str, Vec3]) -> list[BetweenTight]:
    """Return a rule for every part in the room between faces of another, where no ``[[gap]]`` speaks for the two."""
    spoken = {frozenset(gap.between) for gap in job.gaps}
    rules, seen = [], Counter[tuple[str, str]]()
    for fit in fits:
        if {fit.inner, fit.outer} in spoken:
            continue
        seen[fit.inner, fit.outer] += 1
        n = seen[fit.inner, fit.outer]
        rules.append(_rule(job, fit, f"in {fit.outer}" + (f", {n}" if n > 1 else ""), downs.get(fit.outer)))
    return rules


def _rule(job: Job, fit: CloseFit, feature: str, down: Vec3 | None) -> BetweenTight:
    """Return the rule of one part in one room."""
    how = joint_between(job, fit.inner, fit.outer)
    level = down is not None and abs(sum(a * b for a, b in zip(fit.way, down, strict=True))) < LEVEL_COS
    return BetweenTight(
        part=fit.inner,
        outer=fit.outer,
        feature=feature,
        at_mm=fit.at_mm,
        how=how,
        curved=fit.curved,
        need_mm=job.limits.running_sliding_mm if how is None or how in MOVES else job.limits.running_held_mm,
        most_mm=job.limits.play_sliding_mm,
        file_mm=job.limits.slot_file_mm,
        play=PegPlay(
            bore_mm=fit.width_mm + fit.room_mm,
            peg_mm=fit.width_mm,
            work=WorkedBore(),
            undersize_mm=undersize_of(job, down if level else None, down or (0.0, 0.0, -1.0))[0],
            bore_factor=own_factor(job.part(fit.outer), fit.way, widest=False),
            peg_factor=own_factor(job.part(fit.inner), fit.way, widest=True),
            sanded_mm=filed_mm(job, fit),
        ),
    )

"""The share that a screened part takes, and would take under the same loads with another side down."""

from __future__ import annotations

from planner.finding import Vec3
from planner.job import Job
from planner.strength.judging.beam_share import own_factor, share_at
from planner.strength.screened import Screened


def stress_of(job: Job, one: Screened, factor: float) -> tuple[float, float]:
    """Return the share of the low strength in percent, and the stress in MPa, that a screened part takes at a scale."""
    if one.weakest is None:
        return 0.0, 0.0
    beam_percent = share_at(one.weakest.share_percent, own_factor(job, one.part) or factor)
    ratio = 1.0 if one.elements is None else one.elements.ratio
    return ratio * beam_percent, ratio * one.weakest.stress_at_mpa(beam_percent)


def lying_otherwise(one: Screened, share_percent: float) -> list[tuple[float, Vec3]]:
    """Return what share a part would take with each drawn direction down, the least first."""
    if one.weakest is None:
        return []
    return sorted((share_percent * ratio, down) for down, ratio in one.weakest.lying)

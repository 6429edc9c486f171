"""The share that a screened part would take under the same loads, printed in another way."""

from __future__ import annotations

from planner.finding import Vec3
from planner.job import Job
from planner.mesh import Solid
from planner.rules import chosen_material
from planner.strength.beam.beam_pass import weakest
from planner.strength.beam.material_as_printed import stuff_of
from planner.strength.judging.beam_share import own_factor, share_at
from planner.strength.screened import Screened


def printed_otherwise(job: Job, one: Screened, solid: Solid, factor: float) -> tuple[float, float] | None:
    """Return the share of the low strength in percent, and the stress in MPa, with a job's settings and material.

    Loads and pose are those that the part was screened with, and notches count for as much as they do now. None where
    the part has no figure, or the job no material.
    """
    material = chosen_material(job)
    if one.weakest is None or one.stuff is None or material is None:
        return None
    x, y, z = one.stuff.normal
    stuff = stuff_of(material, job.settings_at(job.own_height_mm(one.part)), (-x, -y, -z))
    found = weakest(solid, one.cases, stuff)
    if found is None:
        return None
    beam_percent = share_at(found.share_percent, own_factor(job, one.part) or factor)
    ratio = 1.0 if one.elements is None else one.elements.ratio
    return ratio * beam_percent, ratio * found.stress_at_mpa(beam_percent)


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

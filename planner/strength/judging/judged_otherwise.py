"""The finding of a screened part, printed or laid in another way under the same loads."""

from __future__ import annotations

from dataclasses import replace

from planner.finding import Finding, Vec3
from planner.job import Job
from planner.mesh import Solid
from planner.rules import chosen_material
from planner.strength.beam.beam_pass import weakest
from planner.strength.beam.material_as_printed import stuff_of
from planner.strength.held.peel import faces_of, peel_of
from planner.strength.judging.strength_rules import strength_rules
from planner.strength.screened import Screened


def judged_otherwise(job: Job, one: Screened, solid: Solid, factor: float, down: Vec3 | None = None) -> Finding | None:
    """Return what a part is told with a job's settings and material, and with another side ``down``, as drawn.

    All that its rule asks is found anew: cuts, notches, legs and held faces; what elements found at notches counts for
    as much as it does now. None where the part has no figure, or the job no material.
    """
    material = chosen_material(job)
    if one.weakest is None or one.stuff is None or material is None:
        return None
    x, y, z = one.stuff.normal
    stuff = stuff_of(material, job.settings_at(job.own_height_mm(one.part)), down or (-x, -y, -z))
    found = weakest(solid, one.cases, stuff)
    if found is None:
        return None
    peel = peel_of(solid, one.cases, stuff, faces_of(job, one.part))
    case = one.cases[found.case_n]
    changed = replace(one, stuff=stuff, material=material, weakest=found, case=case, peel=peel)
    (rule,) = strength_rules(job, [changed])
    return rule.at(factor)

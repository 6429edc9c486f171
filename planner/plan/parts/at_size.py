"""At size: the material chosen, every part at size, and ``check`` at that scale."""

from __future__ import annotations

from dataclasses import replace

from planner.plan.parts.planned_parts import planned_parts
from planner.plan.prepare import Progress
from planner.plan.stages import Prepared, Sized
from planner.rules import check
from planner.supplies import choose_material


def at_size(ready: Prepared, progress: Progress) -> Sized:
    """Scale, mirror, pose and estimate every part of a prepared job in the material chosen for it."""
    choice = choose_material(ready.job)
    material = ready.job.material_named(choice.choice)
    return Sized(
        ready=ready,
        choice=choice,
        material=material,
        parts=planned_parts(ready, material, progress),
        fit=check(replace(ready.bound, settings=None), ready.sizing.percent),  # the plan asks settings of its layers
    )

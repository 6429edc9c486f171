"""How wide a load enters a part: over a bore with what sits in it, a slot's long wall, or at a point.

A screw or a rivet holds a plate over its head, some two diameters wide (ISO 4762 has 1.5 to 1.8, washers of ISO 7089
some 2 to 2.2, from memory), and a stiff disc of that size counts for twice its own width (:mod:`entering_strips`).
Along a bore's axis a pin presses its whole wall.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from planner.finding import Vec3
from planner.strength.loads.part_load import LoadCase, PartLoad, as_vec
from planner.survey import Bore, Slot, Survey

Lines = tuple[Vec3, ...]
HEAD = 4.0
"""Times a bore's diameter, across its axis."""
ON_AXIS_MM = 0.5
"""A load this near to a bore's axis acts on its wall."""


def over_bore(*bores: Bore) -> Lines:
    """Return the lines that a load enters over in bores on one axis, such as two lugs: their ends, and their heads."""
    axis = np.array(bores[0].axis)
    ends = [float(np.array(one.centre_mm) @ axis) + sign * one.depth_mm / 2.0 for one in bores for sign in (-1.0, 1.0)]
    across = np.linalg.svd(axis[None])[2][1:]
    wide_mm = HEAD * max(one.drawn_diameter_mm for one in bores)
    return (as_vec((max(ends) - min(ends)) * axis), *(as_vec(wide_mm * way) for way in across))


def over_slot(slot: Slot) -> Lines:
    """Return the lines that webbing enters over in a slot: its length, its depth and its width."""
    length, deep = np.array(slot.length_axis), np.array(slot.deep_axis)
    sides = (
        slot.length_mm * length,
        slot.depth_mm * deep,
        slot.width_mm * np.cross(length, deep),
    )
    return tuple(as_vec(side) for side in sides)


def all_entering(cases: Sequence[LoadCase], survey: Survey) -> list[LoadCase]:
    """Return load cases with what each load enters over."""
    return [entering(case, survey) for case in cases]


def entering(case: LoadCase, survey: Survey) -> LoadCase:
    """Return a case whose loads are known by what they enter over: those in no bore act at a point."""
    pushes = tuple(replace(one, spread_mm=_over(one, survey.bores) or ()) for one in case.pushes)
    return replace(case, pushes=pushes)


def _over(load: PartLoad, bores: Sequence[Bore]) -> Lines | None:
    """Return what a load enters over: what is told, the bore it is on, or those it lies between; else nothing."""
    if load.spread_mm is not None:
        return load.spread_mm
    on_axis = []
    for one in bores:
        off = np.subtract(load.at_mm, one.centre_mm)
        along = float(off @ np.array(one.axis))
        if one.id == load.over or np.linalg.norm(off - along * np.array(one.axis)) <= ON_AXIS_MM:
            on_axis.append((abs(along) - one.depth_mm / 2.0, along, one))
    inside = [one for gap, _, one in on_axis if gap <= 0.0]
    sides = [any((along > 0.0) == sign for _, along, _ in on_axis) for sign in (True, False)]
    chosen = inside or ([one for _, _, one in on_axis] if all(sides) else [])
    return over_bore(*chosen) if chosen else None

"""The beam pass's own load case, put on a solid: the same forces and couples, each pressed on what it acts on."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.strength.elements.nodal_forces import Press
from planner.strength.loads.part_load import LoadCase, PartLoad, as_vec
from planner.survey import Bore, Slot, Survey

Floats = NDArray[np.float64]
ON_AXIS_MM = 0.5
"""A load this near to a bore's axis acts on its wall."""
PATCH_MM = 2.0
"""A load that presses no bore and no slot presses the surface about so far; no source."""
FACE_MM = 0.5
"""Where parts lie on each other over a face, that is pressed, and no more beside it: two places so near are one."""


def presses_of(case: LoadCase, survey: Survey) -> tuple[Press, ...]:
    """Return every force of a load case on the solid, in balance.

    A support that turns passes no moment about its axis, so that a part held at one joint alone stays out of balance.
    The beam pass then takes the part as clamped there, since it adds up the loads beyond a cut: so is it done here.
    """
    return tuple(_press(one, survey) for one in case.balanced)


def _press(load: PartLoad, survey: Survey) -> Press:
    """Return what one force presses: a bore's wall, a slot's, the face that it enters over, else a patch."""
    bores = _bores(load, survey)
    if bores:
        axis, at = np.array(bores[0].axis), np.array(load.at_mm)
        # Where a pin goes through two lugs, its force acts between them and presses both walls.
        reach = max(abs(float((np.array(one.centre_mm) - at) @ axis)) + one.depth_mm / 2.0 for one in bores)
        return Press(
            at_mm=load.at_mm,
            force_n=load.force_n,
            couple_n_mm=load.couple_n_mm,
            axis=bores[0].axis,
            radius_mm=max(one.drawn_diameter_mm for one in bores) / 2.0,
            deep_mm=2.0 * reach,
        )
    slot = next((one for one in survey.slots if load.over == "slot" and _near(one.at_mm, load.at_mm)), None)
    plain = Press(at_mm=load.at_mm, force_n=load.force_n, couple_n_mm=load.couple_n_mm, patch_mm=PATCH_MM)
    if slot is not None:
        return _on_slot(plain, slot)
    halves = tuple(as_vec(np.array(line) / 2.0) for line in load.spread_mm or ())
    return replace(plain, halves_mm=halves, face_mm=FACE_MM) if halves else plain


def _bores(load: PartLoad, survey: Survey) -> list[Bore]:
    """Return the bores whose wall a force presses: the named one, else those on whose axis it acts."""
    named = [one for one in survey.bores if one.id == load.over]
    if named or load.over:
        return named
    on_axis = []
    for one in survey.bores:
        off = np.subtract(load.at_mm, one.centre_mm)
        along = float(off @ np.array(one.axis))
        if np.linalg.norm(off - along * np.array(one.axis)) <= ON_AXIS_MM:
            on_axis.append((abs(along) - one.depth_mm / 2.0, along, one))
    inside = [one for gap, _, one in on_axis if gap <= 0.0]
    if inside:
        return inside[:1]
    sides = [[row for row in on_axis if (row[1] > 0.0) == sign] for sign in (True, False)]
    return [min(rows, key=lambda row: row[0])[2] for rows in sides if rows] if all(sides) else []


def _on_slot(plain: Press, slot: Slot) -> Press:
    """Return a force on the long wall of a slot, as webbing pulls on it."""
    half = max(slot.length_mm - slot.width_mm, 0.0) / 2.0
    return replace(
        plain,
        halves_mm=(as_vec(half * np.array(slot.length_axis)),),
        patch_mm=float(np.hypot(slot.width_mm, slot.depth_mm)) / 2.0,
    )


def _near(one: Vec3, other: Vec3) -> bool:
    """Return whether two places are one."""
    return float(np.linalg.norm(np.subtract(one, other))) <= ON_AXIS_MM

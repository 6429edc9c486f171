"""What the joints of a closed loop pass from link to link, where statics alone tell it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from planner.mechanism.force.loop_balance import LoopBalance
from planner.mechanism.force.point_load import scaled
from planner.mechanism.force.reactions import Bearing, Statics

Floats = NDArray[np.float64]
PARALLEL_COS = 0.9999
"""Axes that lean less than this against each other are those of a flat loop: bores are surveyed to about as much."""
FREE_SHARE = 1e-6
"""A link that may be pressed by more than this share without any load is held more often than statics tell."""
LEFT_SHARE = 0.02
"""Loads of which more is left out of balance are held by something untold; less is rounding and small steps."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Passed:
    """What joints pass from their standing to their moving bodies: forces, and couples about their points, (n, 3)."""

    pull_n: float
    forces_n: Floats
    couples_n_mm: Floats


def flattened(bearings: Sequence[Bearing]) -> tuple[Bearing, ...] | None:
    """Return the joints of a flat loop with their axes made parallel; None where it is not flat.

    All turn about one direction, and slide square to it.
    """
    turning = [one.about or one.axis for one in bearings if one.about is not None or not one.slides]
    if not turning:
        return None
    normal = np.array(turning[0])
    found = []
    for one in bearings:
        axis = np.array(one.axis)
        lean = float(axis @ normal)
        if one.about is not None and abs(float(np.array(one.about) @ normal)) < PARALLEL_COS:
            return None
        if one.slides:
            if abs(lean) > (1.0 - PARALLEL_COS**2) ** 0.5:
                return None
            axis = axis - lean * normal
            axis = axis / np.linalg.norm(axis)
        elif abs(lean) < PARALLEL_COS:
            return None
        else:
            axis = np.copysign(1.0, lean) * normal
        x, y, z = (float(value) for value in axis)
        about = None if one.about is None else turning[0]
        found.append(replace(one, axis=(x, y, z), about=about))
    return tuple(found)


def told_by_statics(bearings: Sequence[Bearing], stands: int) -> bool:
    """Return whether balance alone tells what the joints pass (Newton, textbook).

    Of a flat loop the forces in its plane must be told: what passes across it counts as the least that does.
    """
    flat = flattened(bearings)
    if flat is None:
        return not any(True for _ in Statics(bearings, stands).free_shares())
    normal = np.array(next(one.about or one.axis for one in flat if one.about is not None or not one.slides))
    for forces, couples in Statics(flat, stands).free_shares():
        inside = forces - (forces @ normal)[:, None] * normal
        if max(float(np.abs(inside).max()), float(np.abs(couples @ normal).max())) > FREE_SHARE:
            return False
    return True


def passed(balance: LoopBalance, grip_n: float, friction_ratio: float) -> Passed | None:
    """Return what the joints of a loop pass while a cord holds a grip; None where no pull of the cord does.

    Every link is in balance then: under what its joints pass with their friction, the cord, the grip and elastics.
    """
    pull_n = balance.pull_for_n(grip_n, friction_ratio)
    if not np.isfinite(pull_n):
        return None
    forces = np.array(balance.pin_forces_n(pull_n, grip_n, friction_ratio))
    bearings = flattened(balance.bearings) or balance.bearings
    axes = np.array([one.axis for one in bearings])
    across = np.linalg.norm(forces - (forces * axes).sum(axis=1)[:, None] * axes, axis=1)
    rubs = [friction_ratio * one.radius_mm * float(force) for one, force in zip(bearings, across, strict=True)]
    loads = (*scaled(balance.pull, pull_n), *scaled([balance.grip], grip_n), *balance.rest)
    numbered = [(balance.bodies.get(load.copy, balance.stands), load) for load in loads]
    found, couples, left = Statics(bearings, balance.stands).whole(numbered, rubs, balance.sense)
    if left > LEFT_SHARE:
        return None
    return Passed(pull_n=pull_n, forces_n=found, couples_n_mm=couples)

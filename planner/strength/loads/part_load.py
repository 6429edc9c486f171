"""Loads on one part at drawn size: forces at points of its mesh, what holds it, and how well that is known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3

Floats = NDArray[np.float64]
ARM_MM = 10.0
"""Moments count as forces at this arm where statics leave a choice between them; no source."""
HINGED = 1e-6
"""A moment that supports on one line would only take at arms of this share of what they have is left over: bores that
lie on one axis but for rounding turn about it."""
LATER = 1e-3
"""A couple is taken only where forces do not do: it costs so much more."""

LEFT_SHARE = 1e-6
"""What a case leaves out of balance by less than this share of its greatest is rounding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLoad:
    """A force on a part, in its mesh's frame; ``over`` is the bore whose wall it presses, where it is one.

    A support that clamps passes a couple, too. ``spread_mm`` are lines square to each other that it enters over: none
    at a point, None where nothing says how wide, which is taken as over the whole section.
    """

    at_mm: Vec3
    force_n: Vec3
    over: str = ""
    couple_n_mm: Vec3 = (0.0, 0.0, 0.0)
    spread_mm: tuple[Vec3, ...] | None = None

    def width_mm(self, way: Floats) -> float:
        """Return how wide it enters along a unit vector, as an ellipsoid has it: 0 at a point."""
        return float(np.linalg.norm(np.array(self.spread_mm) @ way)) if self.spread_mm else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Support:
    """A place that holds a part.

    Parameters
    ----------
    over
        The bore, or the part that meets there.
    axis
        Of its bore; None where it is none.
    turns
        Whether the part turns there: it passes no moment about the axis.
    spread_mm
        Lines square to each other that its answer enters over; None where nothing says how wide.
    """

    at_mm: Vec3
    over: str = ""
    axis: Vec3 | None = None
    turns: bool = False
    spread_mm: tuple[Vec3, ...] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadCase:
    """Loads on a part at one time, in balance with its supports.

    Parameters
    ----------
    pushes
        What acts.
    answers
        What the supports give back.
    ways
        From where to where the part is cut: from a support to where a load acts.
    said
        Where the loads come from, in words.
    asks
        What to state, where nobody told their place, their way or what holds the part; empty where all is known.
    copies
        The copies of the part that they are on; empty where nobody asked for each copy.
    """

    pushes: tuple[PartLoad, ...]
    answers: tuple[PartLoad, ...]
    ways: tuple[tuple[Vec3, Vec3], ...]
    said: str
    asks: str = ""
    copies: tuple[str, ...] = ()

    @property
    def every(self) -> tuple[PartLoad, ...]:
        """All forces on the part."""
        return (*self.pushes, *self.answers)

    @property
    def balanced(self) -> list[PartLoad]:
        """All forces, the first support's with what they lack of balance: as if the part were clamped there."""
        return _balanced([*self.answers, *self.pushes])

    @property
    def force_n(self) -> Vec3:
        """The greatest force that acts."""
        return max((one.force_n for one in self.pushes), key=lambda force: sum(f * f for f in force))


def answers_of(pushes: Sequence[PartLoad], supports: Sequence[Support]) -> tuple[PartLoad, ...]:
    """Return what supports give back to balance loads: the least that does, forces before couples (Newton, textbook).

    A support that turns passes no moment about its axis: what it would need there is left over.

    >>> push = PartLoad(at_mm=(4.0, 0.0, 0.0), force_n=(0.0, 2.0, 0.0))
    >>> answers_of([push], [Support(at_mm=(0.0, 0.0, 0.0))])[0].couple_n_mm
    (0.0, 0.0, -8.0)
    """
    if not supports:
        return ()
    wanted, columns, owners = np.zeros(6), [], []
    for load in pushes:
        wanted -= _at(load.at_mm, np.array(load.force_n))
        wanted[3:] -= np.array(load.couple_n_mm) / ARM_MM
    for number, one in enumerate(supports):
        for way in np.eye(3):
            columns.append(_at(one.at_mm, way))
            owners.append(number)
    forces_n = len(columns)
    for number, one in enumerate(supports):
        for way in _couples(one):
            columns.append(LATER * np.concatenate([np.zeros(3), way]))
            owners.append(number)
    shares = np.linalg.lstsq(np.array(columns).T, wanted, rcond=HINGED)[0]
    found = [np.zeros((2, 3)) for _ in supports]
    for k, (share, column, owner) in enumerate(zip(shares, columns, owners, strict=True)):
        if k < forces_n:
            found[owner][0] += share * column[:3]
        else:
            found[owner][1] += share * column[3:] * ARM_MM
    return tuple(
        PartLoad(
            at_mm=one.at_mm,
            force_n=as_vec(force),
            over=one.over,
            couple_n_mm=as_vec(couple),
            spread_mm=one.spread_mm,
        )
        for one, (force, couple) in zip(supports, found, strict=True)
    )


def as_vec(values: Floats) -> Vec3:
    """Return three numbers; what is nothing to nine digits is nothing."""
    x, y, z = (round(float(value), 9) + 0.0 for value in values)
    return x, y, z


def _at(at_mm: Vec3, force: Floats) -> Floats:
    """Return a force with its moment about the origin, as forces at one arm."""
    return np.concatenate([force, np.cross(at_mm, force) / ARM_MM])


def _couples(one: Support) -> Floats:
    """Return the unit couples that a support passes."""
    if one.axis is None or not one.turns:
        return np.eye(3)
    return np.asarray(np.linalg.svd(np.array(one.axis)[None])[2][1:])


def _balanced(every: Sequence[PartLoad]) -> list[PartLoad]:
    """Return forces whose first one takes up what all lack of balance."""
    first = every[0]
    about = np.array(first.at_mm)
    force, couple = np.zeros(3), np.zeros(3)
    most_n, most_n_mm = 0.0, 0.0
    for one in every:
        push, turn = np.array(one.force_n), np.cross(np.subtract(one.at_mm, about), one.force_n) + one.couple_n_mm
        force, couple = force - push, couple - turn
        most_n, most_n_mm = max(most_n, float(np.linalg.norm(push))), max(most_n_mm, float(np.linalg.norm(turn)))
    if np.linalg.norm(force) <= LEFT_SHARE * most_n and np.linalg.norm(couple) <= LEFT_SHARE * most_n_mm:
        return list(every)
    held = replace(
        first, force_n=as_vec(first.force_n + force), couple_n_mm=as_vec(np.array(first.couple_n_mm) + couple)
    )
    return [held, *every[1:]]

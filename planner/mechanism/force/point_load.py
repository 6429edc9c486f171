"""Forces at points of copies: those of a cord, their sum on a body, and the work they do as the device moves."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from planner.finding import Vec3
from planner.mechanism.cord.path.path_stop import PathStop
from planner.mechanism.cord.rubs import Rub
from planner.mechanism.cord.small_moves import Motion
from planner.mechanism.cord.taut import Taut
from planner.mechanism.cord.vectors import cross, dot, less, plus, times
from planner.mechanism.force.friction import Friction, rub_ratio

NOTHING: Vec3 = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class PointLoad:
    """A force on a copy, where it acts in the device at size.

    What a joint passes comes with its couple, and with the copy's bores ``over`` which the pin brings it in.
    """

    copy: str
    at_mm: Vec3
    force_n: Vec3
    couple_n_mm: Vec3 = NOTHING
    over: tuple[str, ...] = ()


def tensions(cord: Taut, rubs: Sequence[Rub], friction: Friction, *, from_end: bool = False) -> tuple[float, ...]:
    """Return the tension of a cord before each of its contacts and behind the last, for a pull of 1 N at its first.

    From there on friction takes its share at each contact. With ``from_end`` the cord is dragged the other way: then
    the pull of 1 N is at its last stop, and friction takes its share toward the first.
    """
    ratios = {rub.number: rub_ratio(rub, friction) for rub in rubs}
    steps = [ratios.get(contact.number, 1.0) if contact.bend_rad > 0.0 else 1.0 for contact in cord.contacts]
    found = [1.0]
    for step in steps[::-1] if from_end else steps:
        found.append(found[-1] / step)
    return tuple(found[::-1] if from_end else found)


def cord_loads(stops: Sequence[PathStop], cord: Taut, pulls: Sequence[float]) -> tuple[PointLoad, ...]:
    """Return what a cord does to the copies that it touches; ``pulls`` from :func:`tensions`, times the pull in N.

    At each contact the cord pulls back along its way with the tension before it, and ahead with the tension behind it.
    """
    found = []
    for contact, before, behind in zip(cord.contacts, pulls, pulls[1:], strict=False):
        copy = stops[contact.number].copy
        if contact.back is not None:
            found.append(PointLoad(copy=copy, at_mm=contact.comes_mm, force_n=times(contact.back, before)))
        if contact.ahead is not None:
            found.append(PointLoad(copy=copy, at_mm=contact.leaves_mm, force_n=times(contact.ahead, behind)))
    return tuple(found)


def scaled(loads: Iterable[PointLoad], ratio: float) -> tuple[PointLoad, ...]:
    """Return loads all larger by one ratio."""
    return tuple(PointLoad(copy=one.copy, at_mm=one.at_mm, force_n=times(one.force_n, ratio)) for one in loads)


def resultant_n(loads: Iterable[PointLoad], copies: Collection[str]) -> Vec3:
    """Return the sum of the forces on some copies."""
    total = NOTHING
    for load in loads:
        if load.copy in copies:
            total = plus(total, load.force_n)
    return total


def moment_n_mm(loads: Iterable[PointLoad], copies: Collection[str], at_mm: Vec3) -> Vec3:
    """Return the sum of the moments of the forces on some copies about a point."""
    total = NOTHING
    for load in loads:
        if load.copy in copies:
            total = plus(total, cross(less(load.at_mm, at_mm), load.force_n))
    return total


def work_n_mm(loads: Iterable[PointLoad], motion: Motion, factor: float) -> float:
    """Return the work of forces for a radian of the joint: their moment about it, whatever linkage lies between.

    Principle of virtual work (textbook, from memory); for a joint that slides, their force along it.
    """
    return sum(dot(load.force_n, motion.speed_mm(load.copy, load.at_mm, factor)) for load in loads)

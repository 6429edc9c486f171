"""Pull for a grip, grip for a pull, and what is left to open again, over the whole range and the range of friction."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from planner.mechanism.force.driven_joint import AnyBalance, DrivenJoint
from planner.mechanism.force.friction import Friction

Levels = tuple[Friction, Friction, Friction]
"""Friction at its least, as expected, and at its most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PullRange:
    """A number over the range of a joint: with the least friction, as expected, and with the most.

    Parameters
    ----------
    angles_deg
        Where; in mm for a joint that slides.
    low_n, expected_n, high_n
        One for each place.
    """

    angles_deg: tuple[float, ...]
    low_n: tuple[float, ...]
    expected_n: tuple[float, ...]
    high_n: tuple[float, ...]

    @property
    def most_n(self) -> tuple[float, float, float]:
        """The greatest over the range, of each."""
        return max(self.low_n), max(self.expected_n), max(self.high_n)

    @property
    def least_n(self) -> tuple[float, float, float]:
        """The least over the range, of each."""
        return min(self.low_n), min(self.expected_n), min(self.high_n)


def pull_over(joint: DrivenJoint, grip_n: float, levels: Levels) -> PullRange:
    """Return the pull at the cord's first stop that builds up a grip, at every angle.

    The weight of the moving body counts against the pull at its high end; with less friction it is left out, since it
    helps as often as it hinders.
    """
    return _over(joint, levels, lambda balance, friction: balance.pull_for_n(grip_n, friction.pin_ratio))


def grip_over(joint: DrivenJoint, pull_n: float, levels: Levels) -> PullRange:
    """Return the grip that a pull builds up, at every angle; ``high_n`` is that with the most friction, the least."""
    return _over(joint, levels, lambda balance, friction: balance.grip_for_n(pull_n, friction.pin_ratio))


def _over(joint: DrivenJoint, levels: Levels, solved: Callable[[AnyBalance, Friction], float]) -> PullRange:
    """Return a number at every angle and every level of friction."""
    angles = joint.pull.run.angles_deg
    found = [
        tuple(solved(joint.balance(k, friction, weighs=friction is levels[2]), friction) for k in range(len(angles)))
        for friction in levels
    ]
    return PullRange(angles_deg=angles, low_n=found[0], expected_n=found[1], high_n=found[2])


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnRange:
    """What elastics have left to open a joint again, in N mm, at every angle: least, as expected, and most.

    ``known`` is False where an elastic's rate is not: its force is then taken as nothing but at full stretch.
    """

    angles_deg: tuple[float, ...]
    low_n_mm: tuple[float, ...]
    expected_n_mm: tuple[float, ...]
    high_n_mm: tuple[float, ...]
    known: bool

    @property
    def least_n_mm(self) -> tuple[float, float, float]:
        """The least over the range, of each."""
        return min(self.low_n_mm), min(self.expected_n_mm), min(self.high_n_mm)


def return_over(joint: DrivenJoint, levels: Levels) -> ReturnRange:
    """Return what is left of the elastics' moment over the friction of their way and the pin, and the weight.

    The pull is let go. With the most friction the weight counts against opening; it is left out otherwise.
    """
    angles = joint.pull.run.angles_deg
    found = []
    for friction in levels[::-1]:
        weighs = friction is levels[2]
        at = [joint.balance(k, friction, "opening", weighs=weighs) for k in range(len(angles))]
        found.append(tuple(balance.left_n_mm(friction.pin_ratio) for balance in at))
    known = all(one.elastic is not None and one.elastic.known for one in joint.elastics)
    return ReturnRange(angles_deg=angles, low_n_mm=found[0], expected_n_mm=found[1], high_n_mm=found[2], known=known)

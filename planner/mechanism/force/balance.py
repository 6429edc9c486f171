"""Pull for a grip and grip for a pull at one place of a joint, with the friction of its pin."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planner.finding import Vec3
from planner.mechanism.cord.vectors import dot, flat, plus, times

NOTHING: Vec3 = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """What turns a joint, all in the sense in which it closes.

    Parameters
    ----------
    axis
        Of the joint, a unit vector.
    pull_mm
        Moment of 1 N of pull, friction on the cord's way taken off, in N mm.
    grip_mm
        Moment that 1 N at the tip takes.
    rest_n_mm
        Moment of all else: elastics and weight; negative where they open.
    pull_force, grip_force
        Force on the moving body of 1 N of pull, and of 1 N at the tip.
    rest_force_n
        Force on the moving body of all else.
    pin_mm
        Radius of the pin; for a joint that slides 1, since friction then takes mu N, not mu r N.
    """

    axis: Vec3
    pull_mm: float
    grip_mm: float
    rest_n_mm: float = 0.0
    pull_force: Vec3 = NOTHING
    grip_force: Vec3 = NOTHING
    rest_force_n: Vec3 = NOTHING
    pin_mm: float = 0.0

    def pull_for_n(self, grip_n: float, friction_ratio: float) -> float:
        """Return the pull that builds up a grip against the pin's friction; infinite where no pull does.

        The moment left over equals the pin's friction mu r R, where R is the length of all forces across the axis: a
        quadratic in the pull, of which the larger root has the moment left over on the closing side.
        """
        base = self.rest_n_mm - grip_n * self.grip_mm
        fixed = self._across(plus(self.rest_force_n, self.grip_force, grip_n))
        grows = self._across(self.pull_force)
        root = _least(base, self.pull_mm, fixed, grows, friction_ratio * self.pin_mm)
        return max(root, 0.0)

    def grip_for_n(self, pull_n: float, friction_ratio: float) -> float:
        """Return the grip that a pull builds up against the pin's friction; 0 where it does not move the joint."""
        most = self.rest_n_mm + pull_n * self.pull_mm
        fixed = self._across(plus(self.rest_force_n, self.pull_force, pull_n))
        grows, pin = self._across(self.grip_force), friction_ratio * self.pin_mm
        if self.grip_mm <= 0.0 or most <= pin * math.sqrt(dot(fixed, fixed)):
            return 0.0
        square = self.grip_mm**2 - pin**2 * dot(grows, grows)
        half = most * self.grip_mm + pin**2 * dot(fixed, grows)
        left = most**2 - pin**2 * dot(fixed, fixed)
        if abs(square) < 1e-12 * self.grip_mm**2:
            return left / (2.0 * half)
        return (half - math.sqrt(max(half * half - square * left, 0.0))) / square

    def pin_force_n(self, pull_n: float, grip_n: float) -> Vec3:
        """Return the force of the moving body on its pin."""
        return plus(plus(self.rest_force_n, self.pull_force, pull_n), self.grip_force, grip_n)

    def left_n_mm(self, friction_ratio: float) -> float:
        """Return the opening moment of all else, less the pin's friction under it."""
        across = self._across(self.rest_force_n)
        return -self.rest_n_mm - friction_ratio * self.pin_mm * math.sqrt(dot(across, across))

    def _across(self, force: Vec3) -> Vec3:
        """Return a force without its part along the axis."""
        return flat(force, self.axis)


def _least(base: float, per: float, fixed: Vec3, grows: Vec3, pin_mm: float) -> float:
    """Return the least x with base + per x = pin |fixed + grows x| and the left side not negative; infinite if none."""
    square = per**2 - pin_mm**2 * dot(grows, grows)
    if per <= 0.0 or square <= 0.0:
        return math.inf
    half = base * per - pin_mm**2 * dot(fixed, grows)
    left = base**2 - pin_mm**2 * dot(fixed, fixed)
    return (-half + math.sqrt(max(half * half - square * left, 0.0))) / square


def weight_n(mass_g: float, down: Vec3) -> Vec3:
    """Return the weight of a mass in a direction, at standard gravity 9.80665 m/s² (ISO 80000-3).

    >>> weight_n(1000.0, (0.0, 0.0, -1.0))
    (0.0, 0.0, -9.80665)
    """
    return times(down, mass_g * 9.80665e-3)

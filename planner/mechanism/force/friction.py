"""What friction takes of a pull: over bends, and at wheels that turn on an axle."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planner.mechanism.cord.rubs import Rub
from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class Friction:
    """Two coefficients of friction: cord on its guides, and parts on their pins and axles."""

    cord_ratio: float = 0.0
    pin_ratio: float = 0.0


def levels(cord: Sourced, pin: Sourced) -> tuple[Friction, Friction, Friction]:
    """Return friction at its least, as expected and at its most: both coefficients together."""
    return (
        Friction(cord_ratio=cord.low, pin_ratio=pin.low),
        Friction(cord_ratio=cord.value, pin_ratio=pin.value),
        Friction(cord_ratio=cord.high, pin_ratio=pin.high),
    )


def capstan_ratio(bend_rad: float, friction_ratio: float) -> float:
    """Return the pull over the load of a cord that slides round a bend: e^(mu theta) (Euler 1769, Eytelwein 1808).

    >>> round(capstan_ratio(math.pi, 0.2), 4)
    1.8745
    """
    return math.exp(friction_ratio * bend_rad)


def wheel_ratio(bend_rad: float, axle_ratio: float, friction_ratio: float) -> float:
    """Return the pull over the load of a cord round a wheel that turns on an axle; infinite where it cannot turn.

    The pulls k and 1 press the wheel on its axle with root(k² + 1 - 2 k cos theta); with q = mu r / R the moments
    balance where (k - 1)² = q² (k² + 1 - 2 k cos theta) (textbook journal friction, M = mu r N, from memory).

    >>> round(wheel_ratio(math.pi, 0.2, 0.25), 4)
    1.1053
    """
    q2 = (friction_ratio * axle_ratio) ** 2
    if q2 >= 1.0:
        return math.inf
    middle = (1.0 - q2 * math.cos(bend_rad)) / (1.0 - q2)
    return middle + math.sqrt(max(middle * middle - 1.0, 0.0))


def rub_ratio(rub: Rub, friction: Friction) -> float:
    """Return the pull over the load at one place; a wheel that is harder to turn than to slide over stands still."""
    slides = capstan_ratio(rub.bend_rad, friction.cord_ratio)
    if not rub.axle_ratio:
        return slides
    return min(slides, wheel_ratio(rub.bend_rad, rub.axle_ratio, friction.pin_ratio))

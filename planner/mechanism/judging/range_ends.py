"""Where a joint ends over scale: sampled at knots, found from nearer by where a need is met or a stop goes away."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from planner.mechanism.judging.curve_over_scale import Curve

KNOTS = (0.4, 0.6, 0.8, 1.0, 1.25, 1.6, 2.0, 2.5)
"""Sizes (factors) at which the mechanism is asked; between them its numbers go straight."""
CLOSER_N = 3
"""So often the size at which an end meets its need is asked for again, each time from nearer by."""
HALVED_N = 5
"""So often the room is halved in which a stop goes away."""
NEAR = 1e-9
FAR = 1e4
"""Stands for an end that nothing stops, in degrees or mm: more than any joint goes."""

Value = Callable[[float], float | None]
"""A number at a scale; None where it is not known, or where nothing stops a joint."""


def over_knots(value: Value) -> Curve | None:
    """Return a number over scale; None where it is not known at every knot."""
    known = [one for s in KNOTS if (one := value(s)) is not None]
    return Curve(scales=KNOTS, values=tuple(known)) if len(known) == len(KNOTS) else None


def end_over(value: Value, side: int, level: Callable[[float], float] | None) -> Curve | None:
    """Return one end of a joint's range over scale; None where nothing stops it at any size.

    Parameters
    ----------
    value
        The end at a scale; None where nothing stops the joint there: hardware stops small devices alone.
    side
        0 for the lower end, 1 for the upper one.
    level
        What the end ought to reach at a scale; None where nobody said.
    """
    far = FAR if side else -FAR

    def known(s: float) -> float:
        found = value(s)
        return far if found is None else found

    values = tuple(known(s) for s in KNOTS)
    if all(one == far for one in values):
        return None
    curve = _stepped(Curve(scales=KNOTS, values=values), far, known)
    return curve if level is None else _closer(curve, level, known)


def end_at(value: Value, factor: float) -> Curve | None:
    """Return the same where one size alone is asked for: right there, and nowhere else."""
    end = value(factor)
    return None if end is None else Curve(scales=(factor, 2.0 * factor), values=(end, end))


def _stepped(curve: Curve, far: float, known: Callable[[float], float]) -> Curve:
    """Return a curve that leaps to where nothing stops the joint at the first size at which nothing is known to."""
    knots = dict(zip(curve.scales, curve.values, strict=True))
    for (low, at_low), (high, at_high) in pairwise(sorted(knots.items())):
        if (at_low == far) == (at_high == far):
            continue
        stopped, free = (low, high) if at_high == far else (high, low)
        for _ in range(HALVED_N):
            middle = (stopped + free) / 2.0
            found = known(middle)
            if found == far:
                free = middle
            else:
                stopped, knots[middle] = middle, found
        knots[free] = far
        knots[free + NEAR * (stopped - free)] = knots[stopped]
    return _through(knots)


def _closer(curve: Curve, level: Callable[[float], float], known: Callable[[float], float]) -> Curve:
    """Return a curve with knots where it passes a level, found from nearer by each time."""
    for _ in range(CLOSER_N):
        knots = dict(zip(curve.scales, curve.values, strict=True))
        less = _through({s: v - level(s) for s, v in knots.items()})
        for s in less.crossings(0.0):
            if KNOTS[0] < s < KNOTS[-1] and min(abs(s - knot) for knot in curve.scales) > NEAR:
                knots[s] = known(s)
        curve = _through(knots)
    return curve


def _through(knots: dict[float, float]) -> Curve:
    """Return the curve through knots."""
    scales = tuple(sorted(knots))
    return Curve(scales=scales, values=tuple(knots[s] for s in scales))

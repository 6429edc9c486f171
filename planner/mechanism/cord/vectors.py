"""Arithmetic on points and directions as three plain numbers: for a handful of them quicker than arrays."""

from __future__ import annotations

import math

from planner.finding import Vec3


def plus(a: Vec3, b: Vec3, factor: float = 1.0) -> Vec3:
    """Return ``a + factor b``.

    >>> plus((1.0, 2.0, 3.0), (1.0, 0.0, 0.0), -2.0)
    (-1.0, 2.0, 3.0)
    """
    return a[0] + factor * b[0], a[1] + factor * b[1], a[2] + factor * b[2]


def less(a: Vec3, b: Vec3) -> Vec3:
    """Return ``a - b``."""
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def times(a: Vec3, factor: float) -> Vec3:
    """Return ``factor a``."""
    return a[0] * factor, a[1] * factor, a[2] * factor


def dot(a: Vec3, b: Vec3) -> float:
    """Return the scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vec3, b: Vec3) -> Vec3:
    """Return the vector product.

    >>> cross((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    (0.0, 0.0, 1.0)
    """
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def size(a: Vec3) -> float:
    """Return the length of a vector."""
    return math.sqrt(dot(a, a))


def unit(a: Vec3) -> Vec3:
    """Return the direction of a vector; a vector without length has none and stays as it is."""
    length = size(a)
    return times(a, 1.0 / length) if length > 0.0 else a


def flat(a: Vec3, axis: Vec3) -> Vec3:
    """Return a vector less its part along a unit axis."""
    return plus(a, axis, -dot(a, axis))


def across(axis: Vec3) -> Vec3:
    """Return some unit direction across a unit axis."""
    least = min(range(3), key=lambda k: abs(axis[k]))
    basis: Vec3 = (float(least == 0), float(least == 1), float(least == 2))
    return unit(cross(axis, basis))


def between_rad(a: Vec3, b: Vec3) -> float:
    """Return the angle between two directions, exact for small ones too.

    >>> round(between_rad((1.0, 0.0, 0.0), (0.0, 2.0, 0.0)), 6)
    1.570796
    """
    return math.atan2(size(cross(a, b)), dot(a, b))


def turned_rad(a: Vec3, b: Vec3, axis: Vec3) -> float:
    """Return the angle from ``a`` to ``b`` about a unit axis by the right hand, from 0 to a full turn."""
    found = math.atan2(dot(cross(a, b), axis), dot(a, b))
    return found if found >= 0.0 else found + 2.0 * math.pi

"""Whether one body can leave another one: straight, straight twice, turned about an axis first, or unscrewed.

Poses along every way are intersected exactly, at counted steps. Only these two bodies are looked at: what else stands
there may come later.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from manifold3d import Manifold
from numpy.typing import NDArray

from planner.finding import Vec3

THICK_MM = 0.25
"""Matter in matter thinner than this on the way gives way: a press fit drawn tight, the lip of a light catch, or flats
of a coarse round (common practice, no source)."""
FINE_MM, FINE_N, COARSE_MM = 0.5, 20, 1.0
"""The first steps of a way and how many there are, and those after: two walls of 0.5 mm are not stepped over."""
TURN_DEG, SCREW_DEG = 15.0, 30.0
SIMPLER_MM = 0.03
LEAST_MM3 = 0.01
EVEN_N = 96
APART_MM = 3.0
"""Ways that end nearer to each other than this, or to the start, are one: play in a joint leads nowhere."""
SAME = 0.999
Floats = NDArray[np.float64]
Line = tuple[Vec3, Vec3]
"""A direction, and a point that an axis in it goes through."""
Screw = tuple[Line, float]
"""The axis of a drawn thread, and how far a turn goes along it, in mm."""


def boxes_share(one: Manifold, other: Manifold) -> bool:
    """Return whether the boxes of two bodies share room, which needs no matter of theirs."""
    mine, theirs = np.reshape(one.bounding_box(), (2, 3)), np.reshape(other.bounding_box(), (2, 3))
    return bool((np.minimum(mine[1], theirs[1]) - np.maximum(mine[0], theirs[0]) > 0.0).all())


def may_hold(one: Manifold, other: Manifold) -> bool:
    """Return whether one of two bodies may hold the other; where their hulls are apart, none does."""
    return boxes_share(one, other) and _thick(one.hull(), other.hull())


def has_way_out(one: Manifold, other: Manifold, axes: Sequence[Line] = (), screws: Sequence[Screw] = ()) -> bool:
    """Return whether the first of two bodies can leave the second by a way that is tried.

    Along the ``screws``, of either hand. Straight along the device's axes and diagonals, the ``axes`` and a spiral of
    directions; then the same after a turn about one of the axes, as far as it is free, and from every place on a
    straight way, along fewer directions.
    """
    one, other = one.simplify(SIMPLER_MM), other.simplify(SIMPLER_MM)
    if any(unscrews(one, other, screw) for screw in screws):
        return True
    ends: list[Floats] = []
    for way in _ways(axes, even_n=EVEN_N):
        far_mm = _free_mm(one, other, way)
        if far_mm is None:
            return True
        if all(np.linalg.norm(way * far_mm - end) >= APART_MM for end in (np.zeros(3), *ends)):
            ends.append(way * far_mm)
    fewer = _ways(axes, even_n=0)
    starts = (*_turned(one, other, axes), *(one.translate(at) for end in ends for at in _along(end)))
    return any(_free_mm(start, other, way) is None for start in starts for way in fewer)


def _ways(axes: Sequence[Line], *, even_n: int) -> list[Floats]:
    """Return directions to try: the axes, both ways each, 26 of a cube, and some even ones over the sphere."""
    cube = [np.array(v, float) for v in np.ndindex(3, 3, 3) if v != (1, 1, 1)]
    found: list[Floats] = []
    spiral = np.arange(even_n) + 0.5
    height, angle = 1.0 - 2.0 * spiral / max(even_n, 1), np.pi * (1.0 + 5.0**0.5) * spiral
    wide = np.sqrt(1.0 - height**2)
    even = np.column_stack([wide * np.cos(angle), wide * np.sin(angle), height])
    along = [sign * np.asarray(way, float) for way, _ in axes for sign in (1.0, -1.0)]
    for way in (*along, *(v - 1.0 for v in cube), *even):
        unit = way / np.linalg.norm(way)
        if not any(float(unit @ known) > SAME for known in found):
            found.append(unit)
    return found


def _free_mm(one: Manifold, other: Manifold, way: Floats) -> float | None:
    """Return how far a body goes along a direction before it meets the other; None where it leaves it."""
    low, high = (np.reshape(body.bounding_box(), (2, 3)) for body in (one, other))
    # Apart once the boxes are, along whichever axis is first.
    going = [
        ((high[1] - low[0])[k] if way[k] > 0 else (low[1] - high[0])[k]) / abs(way[k])
        for k in range(3)
        if abs(way[k]) > 1e-9
    ]
    far_mm, at_mm, n = max(0.0, min(going)), 0.0, 0
    while at_mm < far_mm:
        step = FINE_MM if n < FINE_N else COARSE_MM
        if _thick(one.translate(way * (at_mm + step)), other):
            return at_mm
        at_mm, n = at_mm + step, n + 1
    return None


def unscrews(one: Manifold, other: Manifold, screw: Screw) -> bool:
    """Return whether a body leaves another one along a thread, either way and of either hand."""
    ((way, at), pitch_mm), along = screw, np.asarray(screw[0][0])
    low, high = (np.reshape(body.bounding_box(), (2, 3)) for body in (one, other))
    turns_most = float(np.linalg.norm(np.ptp(low, axis=0)) + np.linalg.norm(np.ptp(high, axis=0))) / pitch_mm
    for hand in (1.0, -1.0):
        for sign in (1.0, -1.0):
            for n in range(1, int(turns_most * 360.0 / SCREW_DEG) + 1):
                deg = sign * n * SCREW_DEG
                there = one.transform(_about(way, at, deg)).translate(hand * pitch_mm * deg / 360.0 * along)
                if _thick(there, other):
                    break
                if not may_hold(there, other):
                    return True
    return False


def _along(end: Floats) -> Iterator[Floats]:
    """Yield the places on a way to its end: the wide end of a keyhole may lie before it."""
    n = int(np.linalg.norm(end) / COARSE_MM)
    yield from (end * share for share in np.linspace(1.0, 0.0, n, endpoint=False))


def _turned(one: Manifold, other: Manifold, axes: Sequence[Line]) -> Iterator[Manifold]:
    """Yield a body turned about every axis, step by step to either side, as long as it meets nothing."""
    for way, at in axes:
        for sign in (1.0, -1.0):
            for n in range(1, int(180.0 / TURN_DEG) + 1):
                there = one.transform(_about(way, at, sign * n * TURN_DEG))
                if _thick(there, other):
                    break
                yield there


def _about(way: Vec3, at: Vec3, deg: float) -> Floats:
    """Return the motion that turns about a line, as three rows of four."""
    from scipy.spatial.transform import Rotation  # noqa: PLC0415

    turn = Rotation.from_rotvec(np.radians(deg) * np.asarray(way)).as_matrix()
    found: Floats = np.column_stack([turn, np.asarray(at) - turn @ np.asarray(at)])
    return found


def _thick(one: Manifold, other: Manifold) -> bool:
    """Return whether two bodies share a piece that is more than what gives way."""
    if not boxes_share(one, other):
        return False
    shared = one ^ other
    if float(shared.volume()) < LEAST_MM3:
        return False
    return any(2.0 * piece.volume() > THICK_MM * piece.surface_area() for piece in shared.decompose())

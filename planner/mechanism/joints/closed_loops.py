"""Closed loops: how far they gape with the tree's joints at given values, and how that changes with each of them."""

from __future__ import annotations

import math
from collections.abc import Container, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from planner.mechanism.joints.moving_joint import MovingJoint

NEWTONS_N = 14
CLOSED_MM = 1e-7
ROUNDED_MM = 1e-3
"""A loop with more joints than it needs (a third crank) closes as far as the rounding of its meshes lets it."""
LEVER_MM = 30.0
"""A turn counts in a residual as its arc at this distance."""
Floats = NDArray[np.float64]
Way = tuple[int, int, int, float]
Gape = tuple[Floats, Floats]


class ClosedLoops:
    """A tree of bodies whose other joints close loops.

    Bodies are (4, 4) matrices here: thousands of states are tried while a joint goes over its range.
    """

    def __init__(self, joints: Sequence[MovingJoint], ways: Sequence[Way], ends: Sequence[tuple[int, int]]) -> None:
        """Take the tree's joints first, then those that close a loop; ways and ends as in ``Linkage``."""
        self.joints, self.ways, self.ends = joints, ways, ends
        self.tree_n = sum(base >= 0 for _, base, _, _ in ways)
        self.axis = np.array([joint.axis for joint in joints])
        self.at = np.array([joint.at_mm for joint in joints])
        self.slides = [joint.kind == "slides" for joint in joints]
        self.about = [None if joint.about is None else np.array(joint.about) for joint in joints]
        self.cross = [_times(axis) for axis in self.axis]
        self.above: dict[int, Floats] = {}
        self.stands = np.zeros(self.tree_n, dtype=int)
        for body, base, n, sense in ways:
            above = np.zeros(self.tree_n)
            if base >= 0:
                above += self.above[base]
                above[n] = sense
                self.stands[n] = base
            self.above[body] = above
        self.unit = np.array([0.0 if slides else math.pi / 180 for slides in self.slides[: self.tree_n]])

    def bodies(self, q: Floats) -> list[Floats]:
        """Return how far each body has moved, a (4, 4) matrix each."""
        found: list[Floats] = [np.eye(4)] * len(self.above)
        for body, base, n, sense in self.ways:
            if base >= 0:
                found[body] = found[base] @ self._step(n, float(q[n]) * sense)
        return found

    def _step(self, n: int, value: float) -> Floats:
        """Return a joint's own motion: Rodrigues' formula about its line, or a shift along it."""
        step = np.eye(4)
        if self.slides[n]:
            step[:3, 3] = self.axis[n] * value
            return step
        angle, K = math.radians(value), self.cross[n]
        turn = step[:3, :3]
        turn += math.sin(angle) * K + (1.0 - math.cos(angle)) * (K @ K)
        step[:3, 3] = self.at[n] - turn @ self.at[n]
        return step

    def closed(self, target: Mapping[int, float], q: Floats, still: Container[int] = frozenset()) -> Floats | None:
        """Return the tree's joints that close every loop with some joints at given values; None where it does not end.

        Joints of the tree that are ``still`` stay as they are.
        Gauss and Newton's method: each step takes the shortest way that closes the loops to first order.
        """
        q = q.copy()
        for n, value in target.items():
            if n < self.tree_n:
                q[n] = value
        free = np.array([n for n in range(self.tree_n) if n not in target and n not in still], dtype=int)
        for tried_n in range(NEWTONS_N):
            miss, slopes = self._gape(q, target)
            gapes_mm = float(np.abs(miss).max(initial=0.0))
            if gapes_mm < (CLOSED_MM if tried_n < NEWTONS_N - 1 else ROUNDED_MM):
                return q
            if not len(free):
                return q if gapes_mm < ROUNDED_MM else None
            q[free] -= np.linalg.lstsq(slopes[:, free], miss, rcond=1e-9)[0]
            if not np.isfinite(q).all():
                return None
        return None

    def value(self, n: int, bodies: Sequence[Floats]) -> float:
        """Return a joint's value from where its bodies stand, a turn between -180 and 180."""
        base, other = (bodies[end] for end in self.ends[n])
        if self.slides[n]:
            between = (other - base) @ [*self.at[n], 1.0]
            return float(between[:3] @ (base[:3, :3] @ self.axis[n]))
        turn = base[:3, :3].T @ other[:3, :3]
        return math.degrees(math.atan2(float(_twist(turn) @ self.axis[n]), (float(np.trace(turn)) - 1.0) / 2))

    def _gape(self, q: Floats, target: Mapping[int, float]) -> Gape:
        """Return in mm how far loops gape and given joints miss their values, and the slopes by the tree's joints."""
        bodies = self.bodies(q)
        base = np.array([bodies[n] for n in self.stands])
        ways = np.einsum("nij,nj->ni", base[:, :3, :3], self.axis[: self.tree_n])
        at = np.einsum("nij,nj->ni", base[:, :3, :3], self.at[: self.tree_n]) + base[:, :3, 3]
        rows = [self._row(n, target, bodies, (ways, at)) for n in range(self.tree_n, len(self.joints))]
        return np.concatenate([row[0] for row in rows]), np.concatenate([row[1] for row in rows])

    def _row(self, n: int, target: Mapping[int, float], bodies: Sequence[Floats], lines: tuple[Floats, Floats]) -> Gape:
        """Return the residual of one joint that closes a loop, and its slopes.

        A turn about a line w through c moves a point p by w × (p - c), and turns a direction d by w × d.
        """
        base, other = (bodies[end] for end in self.ends[n])
        p, r = (body[:3, :3] @ self.at[n] + body[:3, 3] for body in (base, other))
        d, e = (body[:3, :3] @ self.axis[n] for body in (base, other))
        on_p, on_r = (self.above[end][:, None] for end in self.ends[n])
        w, c = lines
        spin = self.unit[:, None] * w
        shift = np.where(self.unit[:, None] > 0, -np.einsum("ni,nij->nj", spin, _many_times(c)), w)
        go = on_r * (spin @ _times(r) + shift) - on_p * (spin @ _times(p) + shift)
        turned, off = on_p * (spin @ _times(d)), r - p
        if self.slides[n]:
            along = np.outer(go @ d + turned @ off, d)
            miss, slopes = [off - d * float(off @ d)], [go - along - turned * float(off @ d)]
            about = self.about[n]
            if about is None:
                miss.append(LEVER_MM * (base[:3, :3] @ _twist(base[:3, :3].T @ other[:3, :3])))
                slopes.append(LEVER_MM * (on_r - on_p) * spin)
            else:  # a pin in a slot: both bodies keep its axis
                one, two = base[:3, :3] @ about, other[:3, :3] @ about
                miss.append(LEVER_MM * (two - one))
                slopes.append(LEVER_MM * (on_r * (spin @ _times(two)) - on_p * (spin @ _times(one))))
        else:
            miss = [off, LEVER_MM * (e - d)]
            slopes = [go, LEVER_MM * (on_r * (spin @ _times(e)) - turned)]
        if n in target:
            short = self.value(n, bodies) - target[n]
            turn = math.radians((short + 180.0) % 360.0 - 180.0) * LEVER_MM
            miss.append(np.array([short if self.slides[n] else turn]))
            slopes.append(
                (go @ d + turned @ off if self.slides[n] else LEVER_MM * (on_r - on_p)[:, 0] * (spin @ d))[:, None]
            )
        return np.concatenate(miss), np.concatenate(slopes, axis=1).T


def _times(x: Floats) -> Floats:
    """Return the matrix that gives w × x for a row w."""
    return np.array([[0.0, -x[2], x[1]], [x[2], 0.0, -x[0]], [-x[1], x[0], 0.0]])


def _many_times(X: Floats) -> Floats:
    """Return that matrix for every row."""
    return np.array([_times(x) for x in X])


def _twist(turn: Floats) -> Floats:
    """Return axis times sine of a rotation: the skew part of its matrix."""
    return np.array([turn[2, 1] - turn[1, 2], turn[0, 2] - turn[2, 0], turn[1, 0] - turn[0, 1]]) / 2.0

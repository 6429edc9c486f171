"""Where on its way a body may come near another, told from their boxes alone, before anything is cut or met.

The device is placed every few degrees of the way. Between two places no corner of a box goes farther than between the
places themselves, so that boxes far enough apart at both are so in between, and all that is in them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

import manifold3d
import numpy as np
from numpy.typing import NDArray

from planner.mechanism.places.frame import Frame

Motion = Callable[[float], list[Frame]]
"""How far every group has moved at a value of the joint, in degrees or mm."""
APART = 5.0
"""Most degrees or mm between two places, as long as the longest step of a sweep."""
BENT = 1.01
"""A way is so much longer than the straight line between two places at most: of an arc of 5 degrees, 1.0003."""
Floats = NDArray[np.float64]
Span = tuple[float, float]


CORNERS = np.array([[i, j, k] for i in (0, 1) for j in (0, 1) for k in (0, 1)])
"""Which corner of a box has which of its least and greatest coordinates."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BoxWay:
    """A box gone along a way: its least and greatest corners at every place (n, 3), and how far it goes between two.

    ``least`` and ``most`` are those of all places, ``far_mm`` is the longest of the ways between.
    """

    low_mm: Floats
    high_mm: Floats
    way_mm: Floats
    least: list[float]
    most: list[float]
    far_mm: float

    @classmethod
    def of(cls, low: Floats, high: Floats, way: Floats) -> BoxWay:
        """Return it from its corners and ways."""
        least, most = low.min(axis=0).tolist(), high.max(axis=0).tolist()
        return cls(low_mm=low, high_mm=high, way_mm=way, least=least, most=most, far_mm=float(way.max(initial=0.0)))

    def beyond(self, one: Floats, clear_mm: float) -> bool:
        """Return whether a standing box is farther than a clearance from all of the way, along one coordinate."""
        reach = clear_mm + self.far_mm / 2.0
        (x0, y0, z0), (x1, y1, z1) = one.tolist()
        ends = zip((x0, y0, z0), (x1, y1, z1), self.least, self.most, strict=True)
        return any(low - most > reach or least - high > reach for low, high, least, most in ends)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Course:
    """A way with all groups at rising places along it: (n, groups, 3, 4), and how groups stand to each other there.

    ``free`` is a stretch on which nothing is known to meet.
    """

    values: Floats
    placed: Floats
    free: Span = (0.0, 0.0)
    between: dict[tuple[int, int], tuple[Floats, Floats]] = field(default_factory=dict)
    gone: dict[tuple[tuple[int, int], bytes], BoxWay] = field(default_factory=dict)

    def spans(self, groups: tuple[int, int], one: Floats, other: Floats, clear_mm: float) -> list[Span]:
        """Return where on the way the boxes (2, 3) of two groups' bodies may be nearer than a clearance, rising."""
        gone = self._gone(groups, other)
        if gone.beyond(one, clear_mm):
            return []
        apart = np.maximum(np.maximum(one[0] - gone.high_mm, gone.low_mm - one[1]), 0.0)
        gap = np.sqrt((apart**2).sum(axis=1))
        near = (gap[1:] + gap[:-1] - gone.way_mm) / 2.0 <= clear_mm
        near &= (self.values[:-1] < self.free[0]) | (self.values[1:] > self.free[1])
        found: list[Span] = []
        for k in np.flatnonzero(near):
            low, high = float(self.values[k]), float(self.values[k + 1])
            if found and found[-1][1] == low:
                low = found.pop()[0]
            found.append((low, high))
        return found

    def _gone(self, groups: tuple[int, int], other: Floats) -> BoxWay:
        """Return the way of a box of the second group as seen from the first, made once."""
        key = (groups, other.tobytes())
        if key not in self.gone:
            turn, shift = self._between(groups)
            corners = other[CORNERS, (0, 1, 2)]
            moved = corners @ turn.transpose(0, 2, 1) + shift[:, None, :]
            way = BENT * np.sqrt(((moved[1:] - moved[:-1]) ** 2).sum(axis=2).max(axis=1))
            self.gone[key] = BoxWay.of(moved.min(axis=1), moved.max(axis=1), way)
        return self.gone[key]

    def _between(self, groups: tuple[int, int]) -> tuple[Floats, Floats]:
        """Return how the second group stands as seen from the first, at every place: turns and shifts."""
        if groups not in self.between:
            a, b = self.placed[:, groups[0]], self.placed[:, groups[1]]
            back = a[:, :, :3].transpose(0, 2, 1)
            self.between[groups] = back @ b[:, :, :3], (back @ (b[:, :, 3] - a[:, :, 3])[:, :, None])[:, :, 0]
        return self.between[groups]


def course_of(motion: Motion, low_deg: float, high_deg: float, free: Span = (0.0, 0.0)) -> Course:
    """Return the course of a motion from one value to another, in degrees or mm."""
    values = np.linspace(low_deg, high_deg, 2 + int((high_deg - low_deg) / APART))
    placed = np.array([[move.matrix() for move in motion(float(value))] for value in values])
    return Course(values=values, placed=placed, free=free)


def box_of(body: manifold3d.Manifold) -> Floats:
    """Return the least and the greatest corner of a body's box (2, 3)."""
    return np.array(body.bounding_box()).reshape(2, 3)


def on_way(spans: Sequence[Span], way: Span) -> Iterator[Span]:
    """Yield what of a way, up or down, lies in rising spans, in the order in which it is gone.

    >>> list(on_way([(0.0, 5.0), (20.0, 30.0)], (25.0, 2.0)))
    [(25.0, 20.0), (5.0, 2.0)]
    """
    low, high = min(way), max(way)
    inside = [(max(a, low), min(b, high)) for a, b in spans if a <= high and b >= low]
    yield from inside if way[1] >= way[0] else [(b, a) for a, b in reversed(inside)]

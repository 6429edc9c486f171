"""A taut cord over its stops: length, points of contact, bends; wraps that it does not touch are left out."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.finding import Vec3
from planner.mechanism.cord.lift_off import lifted
from planner.mechanism.cord.placed_stop import Placed, Ring, Run, Spot, with_rim_points
from planner.mechanism.cord.post_heights import Heights, settled_heights
from planner.mechanism.cord.tangents import contacts, turn_back
from planner.mechanism.cord.vectors import between_rad, flat, less, plus, size, times, turned_rad, unit

ROUNDS_MOST = 12
"""Rounds between points of contact and heights: two where axes are parallel."""
BARE_RAD = 1e-9
"""A wrap turned by less than this, or by this little less than a full turn, is not turned at all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """One place at which a cord touches something: what bends and forces are told from.

    Parameters
    ----------
    number
        Which stop of the path it is, from 0; a point on a rim carries the number of the knot within.
    comes_mm, leaves_mm
        Where the cord comes to it and leaves it, in the device's frame at size.
    back, ahead
        Unit directions along the cord, away from the stop; None at an end.
    bend_rad
        How far the cord turns here.
    """

    number: int
    comes_mm: Vec3
    leaves_mm: Vec3
    back: Vec3 | None
    ahead: Vec3 | None
    bend_rad: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Taut:
    """A taut cord.

    Parameters
    ----------
    length_mm
        From the first stop to the last.
    contacts
        Where it touches, in order; a stop may be missing, where the cord has lifted off.
    """

    length_mm: float
    contacts: tuple[Contact, ...]

    @property
    def bends_deg(self) -> float:
        """Sum of all turns along the cord, as the capstan equation wants it."""
        return math.degrees(sum(contact.bend_rad for contact in self.contacts))

    @property
    def touched(self) -> frozenset[int]:
        """The numbers of the stops that it touches."""
        return frozenset(contact.number for contact in self.contacts)


def taut(placed: Sequence[Placed]) -> Taut:
    """Return the cord over stops in their order, each wrap with its sense.

    Wraps that the cord would have to be pushed against are taken out one by one, the worst first, and put back where
    the straight way then crosses them.
    """
    chain = with_rim_points(placed)
    off: set[int] = set()
    for _ in range(4 * len(chain) + 1):
        on = [k for k in range(len(chain)) if k not in off]
        laid = _laid([chain[k][1] for k in on])
        again = _crossed(chain, on, laid, off)
        away = [(by, on[i]) for i, by in lifted([chain[k][1] for k in on], laid)]
        if away:
            off.add(max(away)[1])
        elif again is not None:
            off.discard(again)
        else:
            break
    return _told([chain[k] for k in on], laid)


Ends = list[tuple[Vec3, Vec3]]
"""Of each stop: where the cord comes to it, and where it leaves it."""


def _laid(stops: Sequence[Placed]) -> Ends:
    """Return where the cord comes to and leaves every stop."""
    heights: Heights = [(0.0, 0.0) for _ in stops]
    for _ in range(ROUNDS_MOST):
        pairs = [contacts(a, b, heights[k][1], heights[k + 1][0]) for k, (a, b) in enumerate(itertools.pairwise(stops))]
        ends = [
            (pairs[k - 1][1] if k else pairs[0][0], pairs[k][0] if k < len(pairs) else pairs[-1][1])
            for k in range(len(stops))
        ]
        if not any(isinstance(stop, Ring) and stop.slides for stop in stops):
            break
        before, heights = (
            heights,
            settled_heights(stops, ends, [_arc_mm(stop, *e) for stop, e in zip(stops, ends, strict=True)]),
        )
        ends = [
            (_moved(stop, e[0], h[0]), _moved(stop, e[1], h[1]))
            for stop, e, h in zip(stops, ends, heights, strict=True)
        ]
        if all(abs(a[0] - b[0]) + abs(a[1] - b[1]) < 1e-10 for a, b in zip(before, heights, strict=True)):
            break
    return ends


def _moved(stop: Placed, point: Vec3, height_mm: float) -> Vec3:
    """Return a point of contact at another height along a smooth post."""
    if isinstance(stop, Ring) and stop.slides:
        return plus(point, stop.axis, height_mm - stop.height_mm(point))
    return point


def arc_rad(ring: Ring, comes: Vec3, leaves: Vec3) -> float:
    """Return how far round a circle the cord lies: up to a full turn, from half a turn on where it crosses itself."""
    start, end = (flat(less(point, ring.centre_mm), ring.axis) for point in (comes, leaves))
    found = turned_rad(start, end, times(ring.axis, float(ring.sense)))
    if ring.loop:
        return found if found >= math.pi else found + 2.0 * math.pi
    return 0.0 if found > 2.0 * math.pi - BARE_RAD else found


def _arc_mm(stop: Placed, comes: Vec3, leaves: Vec3) -> float:
    """Return the length of cord on a circle, without its climb; 0 for other stops."""
    return arc_rad(stop, comes, leaves) * stop.radius_mm if isinstance(stop, Ring) else 0.0


def _crossed(chain: Sequence[tuple[int, Placed]], on: Sequence[int], laid: Ends, off: set[int]) -> int | None:
    """Return a wrap that was taken out and that the cord would now cross; None where there is none."""
    for place in sorted(off):
        before, after = [i for i, k in enumerate(on) if k < place], [i for i, k in enumerate(on) if k > place]
        three = [chain[on[before[-1]]][1], chain[place][1], chain[on[after[0]]][1]]
        start, end = laid[before[-1]][1], laid[after[0]][0]
        if not lifted(three, [(start, start), (start, end), (end, end)], slack_ratio=BARE_RAD):
            return place
    return None


def _told(chain: Sequence[tuple[int, Placed]], laid: Ends) -> Taut:
    """Return the cord with its lengths and bends."""
    found, total, last = [], 0.0, len(chain) - 1
    for k, ((number, stop), (comes, leaves)) in enumerate(zip(chain, laid, strict=True)):
        back = unit(less(laid[k - 1][1], comes)) if k else None
        ahead = unit(less(laid[k + 1][0], leaves)) if k < last else None
        inside, bend = _inside(stop, comes, leaves, back, ahead)
        total += inside + (size(less(laid[k + 1][0], leaves)) if k < last else 0.0)
        found.append(Contact(number=number, comes_mm=comes, leaves_mm=leaves, back=back, ahead=ahead, bend_rad=bend))
    return Taut(length_mm=total, contacts=tuple(found))


def _inside(stop: Placed, comes: Vec3, leaves: Vec3, back: Vec3 | None, ahead: Vec3 | None) -> tuple[float, float]:
    """Return the length of cord at a stop, and how far the cord turns there, in radians.

    On a post, the cord climbs as a helix: of its turn alpha the share arc over length counts, since a helix bends less
    than its circle (curvature cos2(beta) / r, textbook, from memory).
    """
    if isinstance(stop, Spot):
        turn = between_rad(times(back, -1.0), ahead) if back and ahead and not stop.rim else 0.0
        return 0.0, turn
    if isinstance(stop, Run):
        ways = [unit(less(b, a)) for a, b in zip(stop.line_mm, stop.line_mm[1:], strict=False)]
        length = sum(size(less(b, a)) for a, b in zip(stop.line_mm, stop.line_mm[1:], strict=False))
        corners = sum(between_rad(a, b) for a, b in itertools.pairwise(ways))
        bend = corners if stop.bends_deg is None else math.radians(stop.bends_deg)
        bend += between_rad(times(back, -1.0), ways[0]) if back else 0.0
        return length, bend + (between_rad(ways[-1], ahead) if ahead else 0.0)
    if back is None or ahead is None:
        return 0.0, 0.0
    arc = arc_rad(stop, comes, leaves)
    climb, flat_mm = stop.height_mm(leaves) - stop.height_mm(comes), arc * stop.radius_mm
    length = math.hypot(flat_mm, climb)
    rise = times(stop.axis, climb / flat_mm) if flat_mm > 0.0 else (0.0, 0.0, 0.0)
    bend = arc * (flat_mm / length if length > 0.0 else 1.0)
    bend += between_rad(times(back, -1.0), plus(turn_back(stop, comes), rise))
    return length, bend + between_rad(plus(turn_back(stop, leaves), rise), ahead)

"""How a pull is shared among fingers: by a pulley, a bar or a knot, before and after one of them stops."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.job import Equaliser


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A bar that shares the pull: pulled at its middle hole, with a cord at each end.

    Parameters
    ----------
    long_mm
        Between the holes of the two cords.
    ahead_mm
        How far the hole of the pull lies before the line between them, toward the pull; behind it: negative.
    most_deg
        How far it can lean before it touches something.
    """

    long_mm: float
    ahead_mm: float = 0.0
    most_deg: float = 90.0

    def lean_deg(self, apart_mm: float) -> float:
        """Return how far it leans where one cord has come in further than the other, and no further than it can."""
        sine = max(-1.0, min(1.0, apart_mm / self.long_mm))
        return max(-self.most_deg, min(self.most_deg, math.degrees(math.asin(sine))))

    def shares(self, apart_mm: float) -> tuple[float, float]:
        """Return each cord's share of the pull where the first has come in further by ``apart_mm``.

        Moments about the hole of the pull, the cords parallel (law of the lever, textbook): leaning by phi the lever
        of the cord that lags is (long/2) cos phi - ahead sin phi.
        """
        phi = math.radians(self.lean_deg(apart_mm))
        half, shift = self.long_mm / 2 * math.cos(phi), self.ahead_mm * math.sin(phi)
        first, second = half + shift, half - shift
        whole = first + second
        return (second / whole, first / whole) if whole > 0.0 else (0.5, 0.5)

    def equal_mm(self) -> float:
        """Return how far apart the cords may come in before it touches."""
        return self.long_mm * math.sin(math.radians(self.most_deg))


EVEN = Bar(long_mm=1.0)
"""Where no bar was measured: holes in one line, free to lean, equal shares."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OneStopped:
    """What happens when one finger touches first.

    Parameters
    ----------
    pulls_n
        Pull on each finger's cord while the others have not touched yet.
    go_on
        Whether the others go on closing.
    apart_mm
        How much further their cords may come in; infinite where nothing stops them.
    """

    pulls_n: tuple[float, ...]
    go_on: bool
    apart_mm: float


def hand_pull_n(kind: Equaliser | None, pulls_n: Sequence[float], bar: Bar = EVEN, apart_mm: float = 0.0) -> float:
    """Return the pull at the hand that gives every finger's cord at least its own pull, all of them touching.

    A pulley gives every cord the same, so the hardest finger decides for all, and so do bars on bars for more than two,
    drilled to share evenly; one bar gives two cords its shares; cords that are tied together, or held in one hand, give
    each finger its own once their knots are set.
    """
    if not pulls_n:
        return 0.0
    if kind == "pulley" or (kind == "bar" and len(pulls_n) > 2):
        return len(pulls_n) * max(pulls_n)
    if kind == "bar" and len(pulls_n) == 2:
        shares = bar.shares(apart_mm)
        return max(pull / share if share > 0.0 else math.inf for pull, share in zip(pulls_n, shares, strict=True))
    return sum(pulls_n)


def when_one_stops(
    kind: Equaliser | None, hand_n: float, holds_n: Sequence[float], first: int, bar: Bar = EVEN
) -> OneStopped:
    """Return what each finger gets where one has touched and the others still move.

    Parameters
    ----------
    hand_n
        Pull at the hand.
    holds_n
        Pull that each finger's cord needs just to go on closing, against its elastic and friction.
    first
        The finger that has touched.

    Notes
    -----
    Over a pulley all cords pull alike: while another finger still moves, none can be pulled harder than that one needs
    to move. Tied cords move alike: where one stops all stop, and all further pull goes to it.
    """
    others = [k for k in range(len(holds_n)) if k != first]
    if kind in ("pulley", "bar") and others:
        moving = max(holds_n[k] for k in others) if kind == "pulley" else holds_n[others[0]]
        ratio = 1.0
        if kind == "bar" and len(holds_n) == 2:
            shares = bar.shares(0.0)
            ratio = shares[first] / shares[others[0]]
        needed = moving * (len(others) + ratio)
        if hand_n >= needed:
            pulls = tuple(moving * ratio if k == first else moving for k in range(len(holds_n)))
            return OneStopped(pulls_n=pulls, go_on=True, apart_mm=bar.equal_mm() if kind == "bar" else math.inf)
        even = hand_n / (len(others) + ratio)
        pulls = tuple(even * ratio if k == first else even for k in range(len(holds_n)))
        return OneStopped(pulls_n=pulls, go_on=False, apart_mm=0.0)
    held = sum(holds_n[k] for k in others)
    rest = max(hand_n - held, 0.0)
    pulls = tuple(rest if k == first else min(holds_n[k], hand_n) for k in range(len(holds_n)))
    return OneStopped(pulls_n=pulls, go_on=False, apart_mm=0.0)


def one_stops_words(kind: Equaliser | None, hand_n: float, holds_n: Sequence[float]) -> str:
    """Say what happens where one finger touches first, in one sentence.

    ``hand_n`` is the pull at the hand, ``holds_n`` what each finger's cord needs just to go on closing. Over a pulley
    or bar the easiest one moves, and touches, first; of tied ones any may, the hardest leaves most to itself.
    """
    fingers_n, easiest = len(holds_n), min(range(len(holds_n)), key=holds_n.__getitem__)
    first = easiest if kind in ("pulley", "bar") else max(range(fingers_n), key=holds_n.__getitem__)
    found = when_one_stops(kind, hand_n, holds_n, first)
    if found.go_on:
        others = "the other finger goes on closing when one touches; until it touches too, neither cord"
        if fingers_n > len(("one", "other")):
            others = "the other fingers go on closing when one touches; until they touch too, no cord"
        return f"over the {kind}, {others} is pulled by more than {found.pulls_n[first]:.0f} N"
    if kind in ("pulley", "bar"):
        return f"over the {kind}, {hand_n:.0f} N are too little to close the others after one touches"
    return (
        f"tied together, all stop when one touches: of {hand_n:.0f} N at the hand, {found.pulls_n[first]:.0f} N "
        "go to its cord, so set the knots with care"
    )

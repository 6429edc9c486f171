"""Fingers on cords that are drawn in alike: how far apart they stand at contact, and which knot to move by how much."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Finger:
    """One finger, as its cord comes in from where all knots are set.

    Parameters
    ----------
    name
        What a person calls it.
    takes_mm
        Cord that comes in until the finger touches.
    tip_ratio
        Way of its tip for 1 mm of cord, at contact.
    """

    name: str
    takes_mm: float
    tip_ratio: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """Where the fingers stand as the first touches.

    Parameters
    ----------
    first
        The finger that touches first.
    gaps_mm
        How far each tip still is from touching, in the order of the fingers.
    longer_mm
        By how much to move each finger's knot so that its cord gets longer, and all touch at once. A shorter cord would
        do so as well, but its finger would no longer open all the way.
    """

    first: str
    gaps_mm: tuple[float, ...]
    longer_mm: tuple[float, ...]

    @property
    def spread_mm(self) -> float:
        """How far the last tip is behind the first."""
        return max(self.gaps_mm)


def spread_of(fingers: Sequence[Finger]) -> Spread:
    """Return where fingers stand as the first of them touches, cords drawn in alike.

    All cords are taut when all fingers are open. A finger whose cord has still x mm to come in stands x times its tip's
    way for 1 mm from contact (the tip's way is taken as even over so short a stretch); one that takes x mm less than
    the last gets x mm of slack, and touches together with it.
    """
    least = min(finger.takes_mm for finger in fingers)
    most = max(finger.takes_mm for finger in fingers)
    return Spread(
        first=next(finger.name for finger in fingers if finger.takes_mm == least),
        gaps_mm=tuple((finger.takes_mm - least) * finger.tip_ratio for finger in fingers),
        longer_mm=tuple(most - finger.takes_mm for finger in fingers),
    )


def knot_words(fingers: Sequence[Finger], spread: Spread, least_mm: float = 0.5) -> str:
    """Return which knots to move by how much, in words; empty where none is ahead by more than a knot can be set.

    ``least_mm``: common practice, no source.
    """
    moved = [
        f"move the knot of {finger.name} so that its cord is {mm:.1f} mm longer"
        for finger, mm in zip(fingers, spread.longer_mm, strict=True)
        if mm > least_mm
    ]
    return "; ".join(moved)

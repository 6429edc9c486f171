"""One after another: copies of which each is finished before the next begins, so that a failure loses one piece.

While a copy grows, the head's body passes over all that lies within its reach of the nozzle, and what carries the
head crosses the bed above it: finished copies must stay out of the first and under the second.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.packing.layout.plate import Placement


@dataclass(frozen=True, slots=True, kw_only=True)
class InTurn:
    """What a printer leaves free: ``clear_mm`` sideways of the nozzle, ``under_mm`` below what crosses the bed."""

    clear_mm: float
    under_mm: float


def order_in_turn(placements: Sequence[Placement], heights_mm: Mapping[str, float]) -> tuple[Placement, ...]:
    """Return placements in the order of printing: low ones first, so that at most the last is a tall one.

    Of one height those at the back come first, so that the hand can reach what fails without passing over others.
    """
    return tuple(sorted(placements, key=lambda p: (round(heights_mm[p.part], 3), -round(p.y_mm, 3), p.x_mm)))

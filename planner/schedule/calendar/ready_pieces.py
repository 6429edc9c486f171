"""Ready pieces: when a device is ready as a function of when its last bed is cleared, in straight pieces.

Hands that rest outside their hours make it jump and stand still; between it rises minute by minute.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from planner.schedule.calendar.weekly_spans import HORIZON_MIN, Span
from planner.schedule.hands.hand_steps import Step, placed_steps

NEVER_MIN = 2 * HORIZON_MIN
"""When a device is ready whose work finds no time within a year."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyPiece:
    """For a bed cleared from one minute to another, both meant: ready at a minute, or later as it is (``rises``)."""

    low_min: int
    high_min: int
    ready_min: int
    rises: bool


def ready_min_of(steps: Sequence[Step], attended: Sequence[Span], free_min: int) -> int:
    """Return when a device is ready whose last bed is cleared at a minute; beyond the horizon where never."""
    runs = placed_steps(steps, attended, free_min)
    return NEVER_MIN if runs is None else runs[-1].end_min if runs else free_min


def ready_pieces(steps: Sequence[Step], attended: Sequence[Span], low_min: int, high_min: int) -> list[ReadyPiece]:
    """Return the pieces from one minute to another, in order; neighbours that go on are one."""
    found: list[ReadyPiece] = []
    left = [(low_min, high_min)]
    while left:
        low, high = left.pop()
        least, most = (ready_min_of(steps, attended, minute) for minute in (low, high))
        if least == most or _shape(steps, attended, low) == _shape(steps, attended, high):
            piece = ReadyPiece(low_min=low, high_min=high, ready_min=least, rises=least != most)
            found[-1:] = _joined(found[-1], piece) if found else [piece]
        else:
            middle = (low + high) // 2
            left += [(middle + 1, high), (low, middle)]
    return found


def _joined(one: ReadyPiece, other: ReadyPiece) -> list[ReadyPiece]:
    """Return two neighbours as one where the second goes on as the first does; a piece of one minute goes on as any."""
    for rises in (False, True):
        alike = all(piece.rises == rises or piece.low_min == piece.high_min for piece in (one, other))
        if alike and one.ready_min + rises * (other.low_min - one.low_min) == other.ready_min:
            return [ReadyPiece(low_min=one.low_min, high_min=other.high_min, ready_min=one.ready_min, rises=rises)]
    return [one, other]


def _shape(steps: Sequence[Step], attended: Sequence[Span], minute: int) -> list[tuple[int, ...]] | None:
    """Return how long after a minute each step begins and ends, and in which spans.

    Where that is the same for two minutes it is so for all between them: inside a span work goes on by the minute, and
    what a step waits for, were it a fixed minute, would be nearer to the later one.
    """
    runs = placed_steps(steps, attended, minute)
    if runs is None:
        return None
    return [
        (run.start_min - minute, run.end_min - minute, _begun(attended, run.start_min), _ended(attended, run.end_min))
        for run in runs
    ]


def _begun(attended: Sequence[Span], minute: int) -> int:
    """Return the number of the span in which a minute lies or after which it comes."""
    return bisect_right(attended, (minute, NEVER_MIN))


def _ended(attended: Sequence[Span], minute: int) -> int:
    """Return the number of the span that reaches to a minute, its last one meant too."""
    return bisect_left(attended, (minute, 0))

"""An answer over a whole range of scales, in pieces within which it reads the same but for its numbers.

Each piece is found from the comparisons that made it, and then proved: at several scales within it, what the piece
prints must be what the rule itself says. What cannot be followed or does not prove is asked at every step instead.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from planner.output.page.traced_number import Field, Guard, LostError, printed, traced

Answer = Callable[[float], dict[str, object]]
"""The fields of an answer at a scale, by their names."""
LOOKS_N = 8
"""Scales at which a comparison is looked at again, to find where it first turns."""
PROOFS_N = 7
"""Scales within a piece at which it is proved."""
INSIDE = 1e-12
"""Proofs stay this share of the scale inside a piece: at the very turn equal sums may differ in a last digit."""
BESIDE = 1e-9
"""Proofs at a turn that is named stand this share of the scale beside it."""
PIECES_MOST = 300
STEPS_A_PERCENT = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """An answer from the end of the piece before up to the scale ``to_factor``, itself included."""

    to_factor: float
    fields: dict[str, Field]


def pieces_of(
    answer: Answer,
    low_factor: float,
    high_factor: float,
    turns: Sequence[float] = (),
    known: dict[Guard, tuple[float, float]] | None = None,
) -> tuple[Piece, ...]:
    """Return an answer between two scales (factors) as pieces, smallest first.

    ``turns`` are scales at which the answer says itself that it may turn: beside each of them comparisons are looked at
    again, and it is proved there, too.
    ``known`` keeps from where to where comparisons hold, for answers that make the same ones.
    """
    try:
        found = _followed(answer, low_factor, high_factor, {} if known is None else known, turns)
    except LostError:
        return _asked(answer, low_factor, high_factor)
    return found if _proved(answer, found, low_factor, turns) else _asked(answer, low_factor, high_factor)


def _followed(
    answer: Answer, low: float, high: float, known: dict[Guard, tuple[float, float]], turns: Sequence[float]
) -> tuple[Piece, ...]:
    """Follow an answer from turn to turn; a comparison that still holds turns where it was found to turn before."""
    found: list[Piece] = []
    beside = _beside(turns)

    def up_to(guard: Guard, s: float) -> float:
        start, end = known.get(guard, (math.inf, -math.inf))
        if not start <= s <= end:
            start, end = known[guard] = s, _holds_up_to(guard, s, high, beside)
        return end

    s = low
    while len(found) < PIECES_MOST:
        fields, guards = traced(answer, s)
        end = min((up_to(guard, s) for guard in dict.fromkeys(guards)), default=high)
        if found and found[-1].fields == fields:
            found.pop()
        found.append(Piece(to_factor=end, fields=fields))
        if end >= high:
            return tuple(found)
        s = math.nextafter(end, math.inf)
    raise LostError("too many turns")


def _beside(turns: Sequence[float]) -> list[float]:
    """Return the scales just before and just past some turns."""
    return [turn * beside for turn in turns for beside in (1.0 - BESIDE, 1.0 + BESIDE)]


def _holds_up_to(guard: Guard, s: float, high: float, beside: Sequence[float]) -> float:
    """Return the last scale up to which a comparison comes out as it did.

    What is shared out over a width that ends comes out one way before that, another short of it, and the first again
    past it, where the width is negative: it is looked at beside the turns that the answer names, too.
    """
    holds = s
    even = [s + (high - s) * step / LOOKS_N for step in range(1, LOOKS_N + 1)]
    for fails in sorted((*even, *(look for look in beside if s < look < high))):
        if not guard.holds(fails):
            break
        holds = fails
    else:
        return high
    while (middle := (holds + fails) / 2) not in (holds, fails):
        if guard.holds(middle):
            holds = middle
        else:
            fails = middle
    return holds


def _proved(answer: Answer, pieces: Sequence[Piece], low: float, turns: Sequence[float]) -> bool:
    """Return whether every piece prints what the answer itself is."""
    start = low
    for piece in pieces:
        first, last = start * (1.0 + INSIDE), piece.to_factor * (1.0 - INSIDE)
        looks = [first + (last - first) * step / (PROOFS_N - 1) for step in range(PROOFS_N)]
        looks += _beside(turns)
        for s in looks:
            if first <= s <= last and answer(s) != {key: printed(value, s) for key, value in piece.fields.items()}:
                return False
        start = math.nextafter(piece.to_factor, math.inf)
    return True


def _asked(answer: Answer, low: float, high: float) -> tuple[Piece, ...]:
    """Ask at every tenth of a percent, and keep only where something changes."""
    found: list[Piece] = []
    steps = 100.0 * STEPS_A_PERCENT
    first, last = math.floor(steps * low + 1e-6), math.ceil(steps * high - 1e-6)
    for step in range(first, last + 1):
        fields = answer(step / STEPS_A_PERCENT / 100.0)
        known = _plain(fields)
        if found and found[-1].fields == known:
            found.pop()
        found.append(Piece(to_factor=(step + 0.5) / STEPS_A_PERCENT / 100.0, fields=known))
    return tuple(found)


def _plain(fields: Mapping[str, object]) -> dict[str, Field]:
    """Return the fields that a page knows: texts, numbers, truths and None."""
    return {key: value for key, value in fields.items() if value is None or isinstance(value, (str, bool, int, float))}

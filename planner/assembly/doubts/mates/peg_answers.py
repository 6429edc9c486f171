"""Printed pegs of other parts, as an answer to what goes through bores: they turn there, or are fixed."""

from __future__ import annotations

from collections.abc import Sequence

from planner.assembly.doubts.answer_edits import Answer
from planner.assembly.pegs.pegs_in_bores import PegInBore
from planner.job import Joint, JointKind

IN_PLACE_WEIGHT, BY_SIZE_WEIGHT = 6.0, 0.25
"""How well a peg that is drawn in a bore, or has the same flat, speaks for itself, and one that only has its size."""
WIDE_MM, WIDE_WEIGHT, TUBE_WEIGHT = 8.5, 2.5, 8.0
"""Wider bores are rare, and nothing bought goes through most: a peg of that size speaks so much for itself there, and
so much where both are long, tube in tube. Common practice, no source."""
ALONE_SHARE, FORMED_SHARE = 0.6, 0.3
"""How often one peg in one bore turns, and how often several do between two parts; common practice, no source."""
GUIDED_LEAST, SLIDING_SHARE = 1.5, 0.3
LONG_LEAST, LONG_SHARE = 3.0, 0.6
"""A peg that lies in its bores for so many diameters may slide in them, tube in tube, and how often it does; common
practice, no source."""
DOES: tuple[tuple[str, JointKind, str], ...] = (
    ("turns", "turns", "the peg of {} turns in it"),
    ("fixed", "pressed", "the peg of {} goes in and stays fixed"),
    ("slides", "slides", "the peg of {} slides in it"),
)


def peg_answers(pegs: Sequence[PegInBore]) -> list[Answer]:
    """Return what the pegs that some bores are drawn for may do in them; none where there are none.

    Those of the part that has most of them are offered; each answer states a joint for every two parts. Two parts that
    several pegs hold do not turn on each other, but they may slide, as on guide rods.
    """
    if not pegs:
        return []
    owners = [peg.peg_part for peg in pegs]
    owner = max(dict.fromkeys(owners), key=owners.count)
    mine = [peg for peg in pegs if peg.peg_part == owner]
    fast = {peg.part: peg.fast for peg in mine}
    long = min(_led(peg) for peg in mine)
    guided = long >= GUIDED_LEAST
    slides = LONG_SHARE if long >= LONG_LEAST else SLIDING_SHARE if guided else 0.0
    turns = (ALONE_SHARE if len(mine) == len(fast) else FORMED_SHARE) * (1.0 - slides)
    shares = {"turns": turns, "fixed": 1.0 - slides - turns, "slides": slides}
    return [
        Answer(
            name=f"{owner}-peg-{name}",
            text=text.format(owner),
            weight_factor=_weight(mine, guided=guided) * shares[name],
            joints=tuple(
                Joint(between=(owner, other), how="pressed" if held and how == "turns" else how)
                for other, held in fast.items()
            ),
        )
        for name, how, text in DOES
        if shares[name] > 0.0 and (how != "turns" or not all(fast.values()))
    ]


def _weight(pegs: Sequence[PegInBore], *, guided: bool) -> float:
    """Return how well pegs speak for going into their bores."""
    if any(peg.in_place or peg.keyed for peg in pegs):
        return IN_PLACE_WEIGHT
    if all(peg.bore.drawn_diameter_mm >= WIDE_MM for peg in pegs):
        return TUBE_WEIGHT if guided else WIDE_WEIGHT
    return BY_SIZE_WEIGHT


def _led(peg: PegInBore) -> float:
    """Return for how many diameters a peg may lie in its bore, which leads it along."""
    return min(peg.peg.length_mm, peg.bore.depth_mm) / peg.peg.diameter_mm

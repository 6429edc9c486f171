"""What may go through bores of two sizes on one axis: what serves both, with its own fit in each."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.assembly.bore_ends import stock_of
from planner.assembly.doubts.answer_edits import Answer
from planner.assembly.doubts.bore_groups import BoreGroup
from planner.job import Fit, Hardware, HardwareTables, Nut, OtherBore

AXES_FACTOR = 3.0
"""How well a common axis speaks for one piece through both, beside other answers; common practice, no source."""
STANDS_SHARE = 0.5
"""Weight of a lever that does not move on the screw that goes through it and its fork; common practice, no source."""


def axis_answers(
    group: BoreGroup,
    wider: BoreGroup,
    narrow: Sequence[Answer],
    wide: Sequence[Answer],
    copies: Mapping[str, int],
    tables: HardwareTables,
) -> list[Answer]:
    """Return what may go through both sizes.

    Parameters
    ----------
    group, wider
        The narrow bores, and the wider ones on the same axes.
    narrow, wide
        What may go through each of them alone.
    copies
        How often each part is built in.
    tables
        They tell the longest screw of a size that is sold.
    """
    found = []
    for one in narrow:
        for other in wide:
            if one.name == "nothing" and other.name == "nothing":
                found.append(replace(one, left_open=(*one.left_open, *other.left_open)))
            elif one.cords and other.cords:
                weight = math.sqrt(one.weight_factor * other.weight_factor)
                found.append(replace(one, cords=(*one.cords, *other.cords), weight_factor=weight))
            elif one.hardware and other.hardware:
                found += _both(group, wider, one, other, copies, tables)
    return found


def _both(
    group: BoreGroup,
    wider: BoreGroup,
    one: Answer,
    other: Answer,
    copies: Mapping[str, int],
    tables: HardwareTables,
) -> list[Answer]:
    """Return the answers of one piece that serves both; none where the two mean different ones."""
    first, second = one.hardware[0], other.hardware[0]
    same = first.kind == second.kind and first.diameter_mm == second.diameter_mm and first.printed == second.printed
    pivot = first.kind == "machine-screw" and "turning" in (first.fit, second.fit)  # told below, with both fits
    if not same or pivot or second.fit == "pilot" or not set(first.joins).isdisjoint(second.joins):
        return []
    found = replace(
        one,
        weight_factor=AXES_FACTOR * math.sqrt(one.weight_factor * other.weight_factor),
        left_open=(*one.left_open, *other.left_open),
    )
    what = f"{first.name.split(' in ')[0]} in {group.size_mm:g} and {wider.size_mm:g} mm of {group.parts[0]}"
    stock = stock_of(tables, first.kind, first.diameter_mm)
    longest_mm = stock.longest_mm.value if stock and stock.longest_mm else None
    count = first.count if first.printed else group.pieces_n(copies, first.kind, longest_mm)
    piece = replace(first, name=what, joins=(*first.joins, *second.joins), count=count, other_bores=())
    beside = (*one.hardware[1:], *other.hardware[1:])  # nuts in their pockets
    if first.fit == "pilot":
        return [replace(found, hardware=_threaded(piece, first, second, group, copies))]
    lever = group.lever or wider.lever
    alone = replace(found, hardware=(piece, *beside))
    return _screws(alone, second, lever=lever) if first.kind == "machine-screw" else [_pin(alone, second, lever=lever)]


def _screws(found: Answer, second: Hardware, *, lever: bool) -> list[Answer]:
    """Return the answers of a screw: it holds all together, or a lever turns on it."""
    piece, *nuts = found.hardware
    nut = None if nuts else piece.nut
    stands = replace(piece, other_bores=_there(second, "sliding"), nut=nut)
    share = STANDS_SHARE if lever else 1.0
    plain = replace(found, hardware=(stands, *nuts), weight_factor=share * found.weight_factor)
    if not lever:
        return [plain]
    called = piece.name.replace(" screw in ", " pivot screw in ")
    locking: Nut | None = None if nuts else "locking"
    turns = replace(piece, name=called, other_bores=_there(second, "turning"), nut=locking)
    screw = found.text.split(" goes")[0]
    text = f"{screw} is tightened on the narrower bores, and what has the wider ones turns on it"
    return [replace(found, name=found.name.replace("-screw", "-pivot"), text=text, hardware=(turns, *nuts)), plain]


def _pin(found: Answer, second: Hardware, *, lever: bool) -> Answer:
    """Return the answer of a pin: held, or standing, in the narrower bores; what has the wider ones moves on it."""
    piece, *nuts = found.hardware
    there: Fit = "turning" if lever else second.fit or "sliding"
    here: Fit = "held" if piece.fit == "held" else "sliding" if there == "turning" else piece.fit or "sliding"
    does = "is held" if here == "held" else "stands"
    moves = "turns" if there == "turning" else "slides"
    text = f"{found.text.rsplit(' ', 3)[0]} {does} in the narrower bores and {moves} in the wider ones"
    return replace(found, text=text, hardware=(replace(piece, fit=here, other_bores=_there(second, there)), *nuts))


def _threaded(
    piece: Hardware, first: Hardware, second: Hardware, group: BoreGroup, copies: Mapping[str, int]
) -> tuple[Hardware, ...]:
    """Return the screws that go through the wider bores and cut their thread in the narrower ones."""
    return tuple(
        replace(
            piece,
            name=piece.name if part == group.parts[0] else piece.name.replace(f"of {group.parts[0]}", f"of {part}"),
            joins=(*second.joins, part),
            bore_mm=second.bore_mm,
            pilot_mm=group.size_mm,
            fit="sliding",
            count=sum(copies[name] for name, _ in group.members if name == part),
        )
        for part in first.joins
    )


def _there(second: Hardware, fit: Fit) -> tuple[OtherBore, ...]:
    """Return what differs in the parts with the wider bores."""
    return tuple(OtherBore(part=part, bore_mm=second.bore_mm, fit=fit) for part in second.joins)

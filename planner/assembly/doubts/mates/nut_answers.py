"""Screws whose nuts lie in hexagonal pockets, as an answer to what goes through a bore."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.assembly.doubts.answer_edits import Answer
from planner.assembly.nut_pockets import takes_nut
from planner.job import Hardware, StockSize
from planner.survey import Bore

NUT_FACTOR = 4.0
"""How well such a pocket speaks for its screw, beside other answers; common practice, no source."""
OTHERS_MOST = 3
"""A screw goes through so many bores at most, where parts are not drawn in place; no source."""


def with_nuts(
    answer: Answer, stock: StockSize, pockets: Sequence[tuple[str, Bore]], copies: Mapping[str, int], least_n: int
) -> Answer:
    """Return the answer that a screw goes through, its nuts in the pockets that are drawn for them.

    Where none is, the answer stays as it is. ``least_n`` is how many screws one part has bores for: where that is more
    than there are pockets, something else may hold the rest, so how many there are stays a guess, which is asked.
    """
    mine = [(name, pocket) for name, pocket in pockets if takes_nut(pocket, stock)]
    if not mine:
        return answer
    (screw,) = answer.hardware
    nuts_n = sum(copies[name] for name, _ in mine)
    # Where the parts are not drawn in place, a nut tells of one screw, through its own bore and one or two others;
    # and where there are as many nuts as any one part has bores, more screws would be a guess.
    told = screw.count <= OTHERS_MOST * nuts_n or least_n <= nuts_n
    screws_n = nuts_n if nuts_n < screw.count and told else screw.count
    unsure = ("count",) if least_n > screws_n else screw.guessed
    corners_mm = round(mine[0][1].drawn_diameter_mm, 2)
    nut = Hardware(
        name=f"{stock.label} nut in {corners_mm:g} mm",
        kind="nut",
        diameter_mm=stock.diameter_mm.value,
        joins=tuple(dict.fromkeys(name for name, _ in mine)),
        bore_mm=corners_mm,
        count=nuts_n,
    )
    return Answer(
        name=answer.name,
        text=f"an {stock.label} screw goes through, its nut in the hexagonal pocket",
        weight_factor=answer.weight_factor * NUT_FACTOR,
        hardware=(replace(screw, nut=None, count=screws_n, guessed=unsure), nut),
        left_open=answer.left_open,
    )

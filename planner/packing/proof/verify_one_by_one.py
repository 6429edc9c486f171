"""The proof that copies can be printed one after another: the order is played, copy by copy."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.packing.layout.item import placed_outline
from planner.packing.layout.one_by_one import InTurn
from planner.packing.layout.outline import Ring
from planner.packing.layout.plate import Placement

SLACK_MM = 2e-3


def turn_faults(
    placements: Sequence[Placement],
    rings: Mapping[str, tuple[Ring, ...]],
    heights_mm: Mapping[str, float],
    turns: InTurn,
    brim_mm: float,
) -> list[str]:
    """Return what a head would hit, in sentences; the placements are printed in the order given.

    While a copy is printed, with its brim, no finished one may lie nearer than the head's reach, nor be higher than
    what crosses the bed. How the order was found does not matter here.
    """
    wrong = []
    shapes = [placed_outline(rings[p.part], p) for p in placements]
    for k, now in enumerate(placements):
        nozzle = shapes[k].buffer(brim_mm)
        for done, shape in zip(placements[:k], shapes[:k], strict=True):
            apart = nozzle.distance(shape)
            if apart < turns.clear_mm - SLACK_MM:
                wrong.append(
                    f"the head hits {done.part} {done.copy} while it prints {now.part} {now.copy}: they lie "
                    f"{apart:.2f} mm apart, the head reaches {turns.clear_mm:g} mm"
                )
        wrong += [
            f"{done.part} {done.copy} is {heights_mm[done.part]:.2f} mm high and stands before {now.part} {now.copy}; "
            f"what crosses the bed hangs at {turns.under_mm:g} mm"
            for done in placements[max(0, k - 1) : k]
            if heights_mm[done.part] > turns.under_mm + SLACK_MM
        ]
    return wrong

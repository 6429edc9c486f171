"""Dated plates: times for all of them, and each on the bed of the printer that its time is on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planner.packing import Plate
from planner.plan.dates.plate_loads import on_their_printers
from planner.plan.dates.split_batches import batches_again
from planner.plan.dates.timed_plan import timed
from planner.plan.plates.plate_inputs import Makings
from planner.schedule import Batch, Clocks, Placed


@dataclass(frozen=True, slots=True, kw_only=True)
class Dated:
    """Plates on their printers, the batch of each by that printer's hazard, and the clocks; None without a calendar."""

    plates: tuple[Plate, ...]
    batches: tuple[Batch, ...]
    clocks: Clocks | None


def dated(
    makings: Makings,
    plates: Sequence[Plate],
    batches: Sequence[Batch],
    hands_before_min: int = 0,
    settled: Sequence[Placed] | None = None,
) -> Dated:
    """Return plates with times; those that the calendar gives to another printer are brought there and weighed anew.

    ``hands_before_min`` of work lie before the first plate; ``settled`` are runs that were found beside other jobs'.
    """
    clocks = timed(makings, plates, hands_before_min, settled)
    if clocks is None:
        return Dated(plates=tuple(plates), batches=tuple(batches), clocks=None)
    moved = on_their_printers(makings, plates, clocks.table.runs)
    return Dated(plates=moved, batches=batches_again(makings, plates, moved, batches), clocks=clocks)

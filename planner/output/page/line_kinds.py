"""Where the time and the grams go: one row for each kind of line, over all copies."""

from __future__ import annotations

from planner.packing import counted
from planner.plan import Plan

Row = tuple[str, float, float, float, float]
"""Name, seconds, bar in percent of the longest, grams, bar in percent of the heaviest."""


def kinds_of(plan: Plan) -> list[Row]:
    """Return time and mass by kind of line over all copies: name, seconds, share, grams, share."""
    material = plan.material
    seconds: dict[str, float] = {}
    grams: dict[str, float] = {}
    laid = counted(placement for plate in plan.plates for placement in plate.placements)
    for plate in plan.plates:
        for kind, value in plate.kinds_s.items():
            seconds[kind] = seconds.get(kind, 0.0) + value
    for part in plan.parts:
        for kind, volume in part.estimate.kinds_mm3.items() if part.estimate else ():
            cm3 = volume / 1000 * laid.get(part.part.name, 0)
            grams[kind] = grams.get(kind, 0.0) + cm3 * material.density_g_cm3.value
    longest, heaviest = max(seconds.values(), default=1.0), max(grams.values(), default=1.0)
    return [
        (
            kind,
            seconds[kind],
            100.0 * (seconds[kind] / max(longest, 1e-9)),
            grams.get(kind, 0.0),
            100.0 * (grams.get(kind, 0.0) / max(heaviest, 1e-9)),
        )
        for kind in sorted(seconds, key=lambda k: -seconds[k])
        if seconds[kind] > 0.5
    ]

"""A coupon as an event tells it: what was printed with what, and its readings where there is a filled-in form."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from planner.errors import CommandError

SAME_MM = 1e-6
"""Nozzles closer than this are one size."""


def coupon_told(readings: Path | None, material: str, nozzle_mm: float | None) -> dict[str, Any]:
    """Return material, nozzle, and the readings of a form with the day on which they were taken.

    Raises
    ------
    CommandError, ProfileError
        Where nobody said what it was printed with, or the form says something else or nothing.
    """
    from planner.calibrate import read_readings

    if readings is None:
        if not material or nozzle_mm is None:
            missing = "--nozzle" if material else "--material"
            todo = f"add {missing}, or --readings with the filled-in form"
            raise CommandError(where=missing, wrong="nobody said what the coupon was printed with", todo=todo)
        return {"material": material, "nozzle_mm": nozzle_mm}
    form = read_readings(readings)
    for option, told, read in (("--material", material, form.material), ("--nozzle", nozzle_mm, form.nozzle_mm)):
        if told and (abs(told - read) > SAME_MM if isinstance(told, float) else told != read):
            wrong = f"it is {told}, and {readings.name} says {read}"
            raise CommandError(where=option, wrong=wrong, todo="leave the option out, or correct the form")
    rows = [
        {
            "feature": one.feature.name,
            "kind": one.feature.kind,
            "drawn_mm": one.feature.drawn_mm,
            "inside_mm": one.feature.inside_mm,
            **({"measured_mm": one.measured_mm} if one.measured_mm is not None else {}),
            **({"passed": one.passed} if one.passed is not None else {}),
        }
        for one in form.readings
        if one.measured_mm is not None or one.passed is not None
    ]
    if not rows:
        raise CommandError(where=str(readings), wrong="no reading is filled in", todo="measure, and write it there")
    told = {"material": form.material, "nozzle_mm": form.nozzle_mm, "taken": form.taken.isoformat()}
    return {**told, "readings": rows}

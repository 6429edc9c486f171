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
    if material and material != form.material:
        raise _differs("--material", material, readings.name, form.material)
    if nozzle_mm is not None and abs(nozzle_mm - form.nozzle_mm) > SAME_MM:
        raise _differs("--nozzle", f"{nozzle_mm:g} mm", readings.name, f"{form.nozzle_mm:g} mm")
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
    taken = form.taken.isoformat()
    return {"material": form.material, "nozzle_mm": form.nozzle_mm, "taken": taken, "readings": rows}


def _differs(option: str, told: str, form: str, read: str) -> CommandError:
    """Return what is said where an option and the form differ."""
    wrong = f"it is {told}, and {form} says {read}"
    return CommandError(where=option, wrong=wrong, todo="leave the option out, or correct the form")

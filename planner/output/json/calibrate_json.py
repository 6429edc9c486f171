"""A calibration as plain JSON types."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path

from planner.calibrate import FamilyRisk, Fitted, Logged, Readings
from planner.output.json.plan_json import Json
from planner.sourced import Sourced


def calibrate_json(
    path: Path,
    made_for: Readings | None,
    found: Fitted | None,
    rates: Logged | None,
    families: Sequence[FamilyRisk] = (),
) -> Json:
    """Return the result of ``calibrate``; null where no coupon, or no log, was given."""
    return {
        "schema": "fitwright/calibrate/1",
        "profile": str(path),
        "material": made_for.material if made_for else None,
        "undersize": {
            "upright_mm": _json(found.upright_mm if found else None),
            "lying_mm": _json(found.lying_mm if found else None),
            "pin_mm": _json(found.pin_mm if found else None),
        },
        "least_wall_mm": _json(found.least_wall_mm if found else None),
        "least_gap_mm": _json(found.least_gap_mm if found else None),
        "bridge_mm": _json(found.bridge_mm if found else None),
        "lean_deg": _json(found.lean_deg if found else None),
        "scales_percent": {axis: _json(value) for axis, value in found.scales_percent.items()} if found else {},
        "log": None
        if rates is None
        else {
            "prints": rates.prints_n,
            "hours": rates.hours,
            "failed": rates.failed_n,
            "time_ratio": _json(rates.time_ratio),
            "mass_ratio": _json(rates.mass_ratio),
            "failure_per_hour": _json(rates.failure_per_hour),
            "scrap_share": _json(rates.scrap_share),
            "causes": dict(rates.causes),
            "families": {one.name: _json(one.ratio) for one in families},
        },
        "notes": [*(found.notes if found else ()), *(rates.notes if rates else ())],
    }


def _json(value: Sourced | None) -> Json | None:
    """Return one number with its range, or null."""
    return None if value is None else asdict(value)

"""A calibration as JSON: null for what was not measured."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from planner.output import calibrate_json


def test_without_coupon_and_log_all_is_null() -> None:
    """No number is made up; the keys are there."""
    found: Any = calibrate_json(Path("mine.toml"), None, None, None)

    assert found["undersize"] == {"upright_mm": None, "lying_mm": None, "pin_mm": None}
    assert found["log"] is None
    assert found["notes"] == []

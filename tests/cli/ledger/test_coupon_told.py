"""A coupon as an event tells it."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.cli.ledger.coupon_told import coupon_told
from planner.errors import CommandError

FORM = """
printer = "bench-1"
material = "petg"
nozzle_mm = 0.4
taken = 2026-11-20
[[reading]]
feature = "upright 3"
kind = "upright"
drawn_mm = 3.0
inside_mm = 2.99
measured_mm = 2.8
[[reading]]
feature = "gap 0.2"
kind = "gap"
drawn_mm = 0.2
open = true
[[reading]]
feature = "gap 0.1"
kind = "gap"
drawn_mm = 0.1
"""


def test_what_is_filled_in_is_told(tmp_path: Path) -> None:
    """Two of three readings with their sizes, and what the coupon was printed with."""
    path = tmp_path / "readings.toml"
    path.write_text(FORM, encoding="utf-8")

    assert coupon_told(path, "", 0.4) == {
        "material": "petg",
        "nozzle_mm": 0.4,
        "taken": "2026-11-20",
        "readings": [
            {"feature": "upright 3", "kind": "upright", "drawn_mm": 3.0, "inside_mm": 2.99, "measured_mm": 2.8},
            {"feature": "gap 0.2", "kind": "gap", "drawn_mm": 0.2, "inside_mm": 0.2, "passed": True},
        ],
    }
    with pytest.raises(CommandError, match=r"it is 0\.6"):
        coupon_told(path, "", 0.6)


def test_without_a_form_both_are_to_be_told() -> None:
    """Material and nozzle."""
    assert coupon_told(None, "petg", 0.4) == {"material": "petg", "nozzle_mm": 0.4}
    with pytest.raises(CommandError, match="--nozzle"):
        coupon_told(None, "petg", None)

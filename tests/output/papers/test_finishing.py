"""Finishing: the steps that this job needs, with their cautions."""

from __future__ import annotations

from planner.output import Sheet
from tests.output.said import said


def test_hot_water_has_its_caution(sheets: dict[str, Sheet]) -> None:
    """Never on the wearer, and only for shells; the drawn cuff is one."""
    assert "Never on the wearer" in said(sheets["finishing"])

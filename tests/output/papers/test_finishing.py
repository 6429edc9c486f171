"""Finishing: the steps that this job needs, with their cautions."""

from __future__ import annotations

from planner.output import Sheet
from tests.output.said import said


def test_forming_by_heat_is_discouraged_and_no_recipe(sheets: dict[str, Sheet]) -> None:
    """Water that softens PETG scalds: the sheet says so for the drawn cuff, and gives no times or steps for it."""
    text = said(sheets["finishing"])

    assert "Never heat anything on the wearer" in text
    assert "Do not form cuff by heat" in text
    assert "minute" not in text

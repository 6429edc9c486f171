"""What a family takes home: how to begin, how long marks may last, on and off, who asks again, whom to ask."""

from __future__ import annotations

from planner.output import Sheet
from planner.output.bench.wear_in import DAYS_N, FIRST_MIN, wear_in
from planner.output.paper_files.sheet import Heading, Rows
from planner.plan import Plan
from tests.output.said import said


def test_the_sheet_says_what_clinics_say(sheets: dict[str, Sheet]) -> None:
    """Half an hour on the first day (NHS Fife), marks gone after 20 minutes (Cambridge University Hospitals NHS); each with its source."""
    text = said(sheets["hand-over"])

    for words in ("day 1", "30 min", "gone within 20 min", "NHS Fife", "Cambridge University Hospitals NHS"):
        assert words in text
    for words in ("On and off", "We ask how it goes", "Whom to ask", "emergency number", "Heat bends it", "no load"):
        assert words in text


def test_no_day_is_more_than_twice_the_day_before(plan: Plan) -> None:
    """From half an hour it doubles; the last day of the table is half a day at most, then a clinician says."""
    table = next(block for block in wear_in(plan) if isinstance(block, Rows))
    hours = [row[1] for row in table.rows[:DAYS_N]]

    assert hours == ["30 min", "1 hour", "2 hours", "4 hours"]
    assert FIRST_MIN * 2 ** (DAYS_N - 1) <= 6 * 60
    assert "clinician" in table.rows[-1][1]
    assert all(row[3] == "" for row in table.rows)  # a field to write in
    assert any(isinstance(block, Heading) for block in wear_in(plan))

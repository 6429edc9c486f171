"""Findings in a terminal: grouped, whole words, 80 columns."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.output import finding_list
from tests.output.terminal.consoles import console

LONG = "structure_side_plate_left_of_the_second_kind"


def _finding(feature: str, part: str = "jaw") -> Finding:
    return Finding(rule="bore.tight", part=part, verdict=Verdict.HOLD, why="too tight", feature=feature, measured=2.9)


def test_findings_that_differ_in_their_place_share_an_entry() -> None:
    """Two bores with one trouble are one entry that says so; another part has its own."""
    out, written = console()
    out.print(finding_list([_finding("b1"), _finding("b2"), _finding("b1", "deck")], "title"))
    text = written.getvalue()

    assert text.count("too tight") == 2
    assert text.count("1 more like it") == 1


def test_a_long_name_is_not_broken() -> None:
    """A name of 44 letters stands whole, within 80 columns."""
    out, written = console()
    out.print(finding_list([_finding("b1", LONG)], "title"))

    assert LONG in written.getvalue()
    assert max(map(len, written.getvalue().splitlines())) <= 80

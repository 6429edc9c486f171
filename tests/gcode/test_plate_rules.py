"""What a plate lacks, has too many of, or has mirrored."""

from __future__ import annotations

import numpy as np

from planner.finding import Finding, Verdict
from planner.gcode.matching.islands import Island
from planner.gcode.matching.match import Match, Matching
from planner.gcode.plate_rules import plate_findings

ISLAND = Island(cells=np.ones((4, 4), dtype=np.bool_), slabs=(0,), bottom_mm=0.0, top_mm=3.0)


def _match(part: str, *, mirrored: bool = False) -> Match:
    """Return a match of a part's own size."""
    return Match(island=ISLAND, part=part, across_share=1.0, upward_share=1.0, mirrored=mirrored, alike_share=0.98)


def _wrong(found: Matching) -> list[Finding]:
    """Return what is wrong with a plate."""
    return [finding for finding in plate_findings(found, ()) if finding.verdict is not Verdict.GO]


def test_a_full_plate_is_said_to_be_full() -> None:
    """Three copies expected and there: one finding, with the number, and nothing wrong."""
    found = Matching(matches=tuple(_match(part) for part in ("a", "a", "b")), missing=(), extra=())
    (told,) = plate_findings(found, ())

    assert (told.verdict, told.measured) == (Verdict.GO, 3.0)


def test_each_mirrored_part_is_named_with_its_number() -> None:
    """Two left hands for right ones are one finding about the hand; the plate beside them is not blamed."""
    hands = (_match("hand", mirrored=True), _match("hand", mirrored=True), _match("plate"))
    (wrong,) = _wrong(Matching(matches=hands, missing=(), extra=()))

    assert (wrong.rule, wrong.part, wrong.measured) == ("program.mirrored", "hand", 2.0)


def test_missing_copies_and_pieces_of_no_part_are_both_wrong() -> None:
    """One missing, one that is no part: the plate is not said to be full."""
    found = Matching(matches=(_match("a"),), missing=(("b", 1),), extra=(ISLAND,))

    assert any(finding.part == "b" for finding in _wrong(found))
    assert len(_wrong(found)) == len(plate_findings(found, ())) >= 2


def test_a_plate_that_lacks_or_adds_one_is_never_said_to_be_full() -> None:
    """One copy is missing, or one island is of no part: the other half being right does not make it whole."""
    there = (_match("a"),)
    for found in (
        Matching(matches=there, missing=(("b", 1),), extra=()),
        Matching(matches=there, missing=(), extra=(ISLAND,)),
    ):
        assert "program.parts" not in {
            finding.rule for finding in plate_findings(found, ()) if finding.verdict is Verdict.GO
        }
        assert _wrong(found)

"""Findings about a program: a remedy and a worse verdict only where something is wrong."""

from __future__ import annotations

from typing import Any

import pytest

from planner.finding import Finding, Verdict
from planner.gcode.program_finding import FROM_MOTION, FROM_WORDS, compared_finding, motion_finding


def _found(*, wrong: bool, **more: Any) -> Finding:
    """Return a finding of a rule with a remedy."""
    facts: dict[str, Any] = {"measured": 2.0, "limit": 1.0, "unit": "mm", "why": "why", "remedy": "do"}
    return compared_finding("program.reach", wrong=wrong, **facts | more)


@pytest.mark.parametrize(
    ("wrong", "more", "verdict", "remedy"),
    [
        (True, {}, Verdict.NO_GO, "do"),
        (True, {"worse": Verdict.HOLD}, Verdict.HOLD, "do"),
        (False, {"worse": Verdict.HOLD}, Verdict.GO, ""),
    ],
)
def test_only_what_is_wrong_is_worse_and_has_a_remedy(
    wrong: bool, more: dict[str, Any], verdict: Verdict, remedy: str
) -> None:
    """No-go unless a milder word is asked for; what is right goes without a remedy."""
    found = _found(wrong=wrong, **more)

    assert (found.verdict, found.remedy) == (verdict, remedy)


def test_the_feature_is_the_rules_second_word_and_a_caution_stays_on_a_go() -> None:
    """``program.reach`` speaks of reach; the source says whether words were read, too."""
    found = _found(wrong=False, caution="look")
    moved = motion_finding("program.reach", wrong=True, measured=None, limit=None, unit="", why="")

    assert (found.feature, found.caution, found.source) == ("reach", "look", FROM_WORDS)
    assert moved.source == FROM_MOTION

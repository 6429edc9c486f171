"""Why a part has no figure of strength, and what would give it one."""

from __future__ import annotations

import pytest

from planner.finding import Evidence, Verdict
from planner.strength import Unscreened, unscreened


@pytest.mark.parametrize("why", Unscreened)
def test_a_part_without_a_figure_is_a_hold_that_says_what_to_state(why: Unscreened) -> None:
    """Each reason has its own remedy and question; none asks for what may be stated already."""
    found = unscreened("arm", why)

    assert (found.verdict, found.evidence) == (Verdict.HOLD, Evidence.GUESSED)
    assert found.why == f"where arm is weakest is not known: {why}"
    assert "arm" in found.question
    assert ("load_n" in found.remedy) is (why is Unscreened.NO_LOAD)
    assert len({one.remedy for one in Unscreened}) == len(Unscreened)

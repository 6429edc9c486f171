"""A way that may help costs nothing unless it says so."""

from __future__ import annotations

from planner.remedy.candidate import Candidate


def test_a_candidate_is_free_and_may_be_tried() -> None:
    """Only what says why not cannot be tried."""
    candidate = Candidate(kind="pose", text="lay it another way")

    assert (candidate.costs.minutes_min, candidate.costs.money, candidate.why_not) == (0.0, 0.0, "")

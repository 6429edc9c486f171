"""What ends a range is named."""

from __future__ import annotations

import pytest

from planner.mechanism import Stop, stop_words


@pytest.mark.parametrize(
    ("stop", "said"),
    [
        (Stop(at_deg=1.0, what="meets", parts=("deck", "jaw")), "jaw meets deck"),
        (Stop(at_deg=1.0, what="near", parts=("deck", "jaw")), "jaw comes too near to deck"),
        (Stop(at_deg=1.0, what="locked"), "goes no farther"),
        (Stop(at_deg=1.0, what="stated"), "the job states"),
    ],
)
def test_every_kind_of_end_has_its_words(stop: Stop, said: str) -> None:
    """Meeting, coming too near, a closed chain, a stated limit."""
    assert said in stop_words(stop)

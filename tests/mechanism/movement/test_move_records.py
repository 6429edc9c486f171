"""A device in which nothing moves is told as one."""

from __future__ import annotations

import pytest

from planner.mechanism import CordMove, still
from planner.scale import Scale


def test_nothing_moves_and_nothing_is_unknown() -> None:
    """No joint, no cord, no force."""
    found = still(Scale(120.0))
    assert (found.scale_percent, found.joints, found.cords, found.pins, found.tip) == (120.0, (), (), (), None)


@pytest.mark.parametrize(
    ("back_n_mm", "told"),
    [
        (None, ""),
        ((3.0, 6.0), "band opens it again, with 3.0 N·mm to spare where that is least"),
        ((-2.0, 1.0), "band opens it again with usual friction; with the highest 2.0 N·mm are missing"),
        ((-6.7, -1.8), "band does not open it again: 1.8 N·mm are missing, with the highest friction 6.7 N·mm"),
    ],
)
def test_an_elastic_that_does_not_open_again_is_never_told_to_open(
    back_n_mm: tuple[float, float] | None, told: str
) -> None:
    """What is missing is told as missing: a negative number is nothing to spare."""
    assert CordMove(name="c", part="p", joint="j", elastic="band", back_n_mm=back_n_mm).back_words == told

"""A device in which nothing moves is told as one."""

from __future__ import annotations

from planner.mechanism import still
from planner.scale import Scale


def test_nothing_moves_and_nothing_is_unknown() -> None:
    """No joint, no cord, no force."""
    found = still(Scale(120.0))
    assert (found.scale_percent, found.joints, found.cords, found.pins, found.tip) == (120.0, (), (), (), None)

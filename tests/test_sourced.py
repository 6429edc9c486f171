"""A sourced number lies within its range."""

from __future__ import annotations

import pytest

from planner.sourced import Sourced, stated


def test_a_value_outside_its_range_cannot_be() -> None:
    """Below the low end or above the high one."""
    for value in (0.9, 2.1):
        with pytest.raises(ValueError, match="outside its range"):
            Sourced(value=value, low=1.0, high=2.0, kind="memory", source="x")


def test_a_stated_number_has_no_range() -> None:
    """What a person states is exact."""
    assert (stated(3.0).low, stated(3.0).high, stated(3.0).kind) == (3.0, 3.0, "job")

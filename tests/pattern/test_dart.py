"""A dart's sides meet mark by mark."""

from __future__ import annotations

import pytest

from planner.pattern.dart import Dart


def test_places_that_come_together_lie_equally_far_from_the_tip() -> None:
    """A dart of 30 mm, 8 mm open: half way they lie 4 mm apart (similar triangles)."""
    dart = Dart(left=((-4.0, 0.0), (-2.0, 15.0), (0.0, 30.0)), right=((4.0, 0.0), (0.0, 30.0)))
    one, other = dart.matching(0.5)

    assert dart.opens_mm == 8.0
    assert dart.long_mm == pytest.approx((30.0**2 + 4.0**2) ** 0.5)
    assert one == pytest.approx((-2.0, 15.0))
    assert other == pytest.approx((2.0, 15.0))

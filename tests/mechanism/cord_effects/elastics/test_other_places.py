"""A joint that an elastic crosses and a cord does not move may stand at either end while the cord pulls."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from tests.mechanism.force.together.straight_finger import Line, finger_moves

BENT = math.radians(10.0)


@pytest.mark.parametrize(("joints", "ends"), [((1,), 1), ((1, 2), 2)])
def test_an_elastic_over_a_joint_that_the_cord_leaves_alone_is_asked_with_it_open_and_shut(
    tmp_path: Path, joints: tuple[int, ...], ends: int
) -> None:
    """5 N at full stretch, 1 N/mm and 10 mm over B and C, 10 degrees each: 1.7 mm a joint (a chord).

    The cord turns B alone. With C bent, too, B alone leaves 5 N; with C straight 1.7 N less. Where the elastic lies over
    B alone, C makes no difference.
    """
    cord = Line(levers_mm={1: 8.0}, drives="three", grip_x_mm=90.0)
    band = Line(levers_mm=dict.fromkeys(joints, -10.0), more='kind = "elastic"\nforce_n = 5.0\nrate_n_per_mm = 1.0\n')
    (move,) = finger_moves(tmp_path, [cord, band])
    x, y = (math.cos(BENT) * 5.0 + math.sin(BENT) * 10.0, math.cos(BENT) * 10.0 - math.sin(BENT) * 5.0)
    longer = math.hypot(x + 5.0, y - 10.0) - 10.0
    assert move.back_n_mm is not None
    assert move.back_n_mm[1] == pytest.approx((5.0 - ends * longer) * 10.0, rel=1e-3)

"""Cords that one hand draws over the way from open to closed."""

from __future__ import annotations

import pytest

from planner.mechanism.force.together.asked_alone import JointAsk
from planner.mechanism.force.together.drawn_together import Asking, together_n


def _asking(cord: str, joint: str, pulls: tuple[float, ...], *, cords_n: float = 1.0, on_stop: bool = False) -> Asking:
    shares = tuple(n / (len(pulls) - 1) for n in range(len(pulls)))
    ask = JointAsk(name=joint, driven="tip", shares=shares, pulls_n=(pulls,) * 3, on_stop=on_stop)
    return Asking(cord=cord, cords_n=cords_n, ask=ask)


def test_pulls_add_place_by_place() -> None:
    """One falls from 30 to 10 N while the other rises from 10 to 20: 40 N at most, at the open end, not 30 + 20."""
    every = [_asking("a", "A", (30.0, 10.0)), _asking("b", "B", (10.0, 20.0))]
    assert together_n(every) == pytest.approx((40.0, 40.0, 40.0))
    assert together_n(every, 2) == pytest.approx((60.0, 60.0, 60.0))


def test_places_between_are_taken_along_a_line() -> None:
    """Asked at three places and at two: at the middle 30 and (0 + 10) / 2 N."""
    every = [_asking("a", "A", (0.0, 30.0, 0.0)), _asking("b", "B", (0.0, 10.0))]
    assert together_n(every)[1] == pytest.approx(35.0)


def test_a_stop_may_hold_a_joint_at_the_least_but_not_at_the_most() -> None:
    """Its cord turns another joint at 10 N; the one on the stop would ask 50."""
    every = [_asking("a", "A", (50.0, 50.0), on_stop=True), _asking("a", "B", (10.0, 10.0))]
    assert together_n(every) == pytest.approx((10.0, 50.0, 50.0))


def test_two_cords_of_one_pull_side_by_side_take_half_each() -> None:
    """40 N for one alone: the hand gives twice what each takes, 2 x 20 N."""
    every = [_asking("table", "A", (40.0, 40.0), cords_n=2.0), _asking("table", "A", (40.0, 40.0), cords_n=2.0)]
    assert together_n(every)[1] == pytest.approx(40.0)

"""Cords that share some of their joints: closed forms of the least and the most that all ask together."""

from __future__ import annotations

import math

import pytest

from planner.mechanism.force.together.shared_joints import even_n, least_n, most_n

CHAIN = [{"near": 45.0}, {"near": 150.0, "far": 100.0}, {"far": 25.0}]
"""A 900, B 600, C 300 N mm over levers of 20 and 4 mm, of 6 and 12 mm."""


def test_the_corners_of_what_suffices_are_the_least_and_the_most() -> None:
    """x/150 + y/100 = 1 from (45, 70) to (112.5, 25): corners of a linear programme (Dantzig 1951, from memory)."""
    assert least_n(CHAIN) == pytest.approx(45.0 + 70.0)
    assert most_n(CHAIN) == pytest.approx(112.5 + 25.0)
    assert even_n(CHAIN) == pytest.approx(600.0 / (4.0 + 6.0))


def test_cords_that_share_nothing_add_and_a_joint_that_asks_for_nothing_is_none() -> None:
    """30 and 10 N on joints of their own are 40 N however they are tied; with both joints at ease, 0 N."""
    apart = [{"a": 30.0}, {"b": 10.0}, {"a": 0.0, "b": 0.0}]
    assert (most_n(apart), even_n(apart)) == (40.0, 30.0)
    assert least_n(apart) == pytest.approx(40.0)
    assert (least_n([{"a": 0.0}]), most_n([{"a": 0.0}]), even_n([])) == (0.0, 0.0, 0.0)


def test_a_joint_that_no_cord_turns_makes_every_pull_infinite() -> None:
    """A cord that turns it at no pull is no help; where the other turns it, that one takes all."""
    lost = [{"a": math.inf, "b": math.inf}, {"a": 5.0}]
    assert least_n(lost) == most_n(lost) == even_n(lost) == math.inf
    assert least_n([{"a": math.inf, "b": 20.0}]) == pytest.approx(20.0)
    assert most_n([{"a": math.inf, "b": 20.0}]) == 20.0


def test_of_many_cords_each_is_taken_with_all_that_it_may_be_asked_for() -> None:
    """Seven on one joint of 10 N each: not less than any way to tie them takes."""
    assert most_n([{str(n): 10.0 for n in range(7)}]) == 70.0

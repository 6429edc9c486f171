"""How a pull is shared (statics of a pulley and a bar, textbook, from memory)."""

from __future__ import annotations

import math

import pytest

from planner.mechanism.force.equaliser import Bar, hand_pull_n, one_stops_words, when_one_stops


def test_a_pulley_gives_all_what_the_hardest_needs_and_a_knot_gives_each_its_own() -> None:
    """Two fingers that need 20 and 30 N: 60 N over a pulley or an even bar, 50 N tied."""
    assert hand_pull_n("pulley", [20.0, 30.0]) == 60.0
    assert hand_pull_n("bar", [20.0, 30.0]) == pytest.approx(60.0)
    assert hand_pull_n("knot", [20.0, 30.0]) == hand_pull_n(None, [20.0, 30.0]) == 50.0
    assert hand_pull_n(None, []) == 0.0


def test_three_fingers_on_bars_share_evenly() -> None:
    """Bars on bars give each of three a third, so the hardest decides, 3 x 30 N; tied, their pulls add."""
    assert hand_pull_n("bar", [20.0, 30.0, 25.0]) == pytest.approx(90.0)
    assert hand_pull_n("knot", [20.0, 30.0, 25.0]) == pytest.approx(75.0)


def test_a_leaning_bar_keeps_moments_about_its_hole() -> None:
    """Its pulls are as the levers are, taken from the corners' coordinates; in line it shares evenly however it leans."""
    bar = Bar(long_mm=40.0, ahead_mm=4.0, most_deg=35.0)
    apart = 12.0
    phi = math.asin(apart / 40.0)
    hole_y = -4.0 * math.sin(phi)
    first_y, second_y = 20.0 * math.cos(phi), -20.0 * math.cos(phi)
    first, second = bar.shares(apart)

    assert first + second == pytest.approx(1.0)
    assert first * (first_y - hole_y) == pytest.approx(second * (hole_y - second_y))
    assert first < 0.5  # the cord that is ahead is pulled less, so that the other catches up
    assert Bar(long_mm=40.0).shares(apart) == pytest.approx((0.5, 0.5))
    assert bar.lean_deg(39.0) == 35.0
    assert bar.equal_mm() == pytest.approx(40.0 * math.sin(math.radians(35.0)))


def test_a_pulley_lets_the_other_finger_go_on() -> None:
    """While it moves against 4 N, the finger that has touched presses with no more than 4 N of its cord's pull."""
    found = when_one_stops("pulley", 100.0, [5.0, 4.0], 0)

    assert found.pulls_n == (4.0, 4.0)
    assert found.go_on
    assert found.apart_mm == math.inf
    weak = when_one_stops("pulley", 6.0, [5.0, 4.0], 0)
    assert weak.pulls_n == (3.0, 3.0)
    assert not weak.go_on


def test_a_knot_stops_all_and_gives_the_rest_to_the_first() -> None:
    """Of 100 N, 4 N hold the finger that has not touched, and 96 N go to the one that has."""
    for kind in ("knot", None):
        found = when_one_stops(kind, 100.0, [5.0, 4.0], 0)

        assert found.pulls_n == (96.0, 4.0)
        assert not found.go_on


def test_a_bar_goes_on_until_it_has_leaned_as_far_as_it_can() -> None:
    """Its way is long sin(most)."""
    found = when_one_stops("bar", 100.0, [5.0, 4.0], 1, Bar(long_mm=40.0, most_deg=30.0))

    assert found.pulls_n == pytest.approx((5.0, 5.0))
    assert found.apart_mm == pytest.approx(20.0)


def test_the_sentence_names_what_shares_and_what_each_gets() -> None:
    """A bar lets the other go on, a knot does not, and a weak hand neither."""
    assert one_stops_words("bar", 40.0, [6.0, 6.0]) == (
        "over the bar, the other finger goes on closing when one touches; until it touches too, neither cord is pulled "
        "by more than 6 N"
    )
    assert "of 40 N at the hand, 34 N go to its cord" in one_stops_words("knot", 40.0, [6.0, 6.0])
    assert "tied together" in one_stops_words(None, 40.0, [6.0, 6.0])
    assert "too little" in one_stops_words("pulley", 8.0, [6.0, 6.0])


def test_over_a_pulley_the_easier_finger_touches_first_whichever_is_named_first() -> None:
    """Of holds of 4 and 10 N one tension moves the first at 4 N; once it touches the other takes 10 N to move (statics)."""
    for holds in ([4.0, 10.0], [10.0, 4.0]):
        assert "neither cord is pulled by more than 10 N" in one_stops_words("pulley", 60.0, holds)
        assert "too little" in one_stops_words("pulley", 19.0, holds)
        assert "56 N go to its cord" in one_stops_words("knot", 60.0, holds)

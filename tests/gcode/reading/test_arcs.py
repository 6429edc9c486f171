"""Arcs in their plane, by numbers worked out by hand."""

from __future__ import annotations

import math

import pytest

from planner.gcode.reading.arcs import ARC_MM, CHORDS_MOST, centre_by_radius, chords_n, turn_rad


@pytest.mark.parametrize(("radius", "centre"), [(1.0, (0.0, 0.0)), (-1.0, (1.0, 1.0))])
def test_a_negative_radius_is_the_longer_way_round(radius: float, centre: tuple[float, float]) -> None:
    """To the left from (1, 0) to (0, 1): a quarter about the origin, or three quarters about (1, 1) (geometry)."""
    assert centre_by_radius(1.0, 0.0, 0.0, 1.0, radius, True) == pytest.approx(centre, abs=1e-12)


def test_an_arc_to_its_own_start_has_no_centre() -> None:
    """A radius alone cannot say where a full circle lies."""
    assert math.isnan(centre_by_radius(3.0, 2.0, 3.0, 2.0, 5.0, True)[0])


@pytest.mark.parametrize(
    ("last", "left", "more", "quarters"),
    [(0.5, True, 0, 1), (0.5, False, 0, -3), (0.0, True, 0, 4), (0.0, False, 0, -4), (0.5, True, 2, 9)],
)
def test_turns_go_the_way_that_the_word_says(last: float, left: bool, more: int, quarters: int) -> None:
    """A quarter to the left is three to the right; equal ends are a full circle; whole turns are added."""
    assert turn_rad(0.0, last * math.pi, left, more) == pytest.approx(quarters * math.pi / 2)


@pytest.mark.parametrize("radius", [0.005, 0.5, 5.0, 500.0])
def test_chords_stay_as_close_as_promised(radius: float) -> None:
    """The sagitta r (1 - cos(turn / 2n)) of every chord is no more than the limit (geometry)."""
    n = chords_n(radius, 2 * math.pi)

    assert radius * (1 - math.cos(math.pi / n)) <= ARC_MM * (1 + 1e-9)


@pytest.mark.parametrize("turn", [0.0, 1e-9, 6.3, 1e30])
def test_an_endless_radius_or_turn_has_a_bounded_number_of_chords(turn: float) -> None:
    """No radius that a broken program may hold ends in a division by zero."""
    assert 1 <= chords_n(1e30, turn) <= CHORDS_MOST

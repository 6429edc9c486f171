"""A taut cord against the closed forms of belts, helices and hooks (textbook geometry, from memory)."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest
from scipy.optimize import minimize

from planner.finding import Vec3
from planner.mechanism.cord.placed_stop import Placed, Ring, Run, Spot
from planner.mechanism.cord.taut import taut

Z: Vec3 = (0.0, 0.0, 1.0)


def ring(x: float, y: float, radius_mm: float, sense: int, axis: Vec3 = Z, **more: bool) -> Placed:
    return Ring(axis=axis, centre_mm=(x, y, 0.0), radius_mm=radius_mm, sense=sense, **more)


def spot(x: float, y: float, z: float = 0.0) -> Placed:
    return Spot(at_mm=(x, y, z))


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize("swept_deg", [160.0, 200.0, 270.0])
def test_one_pulley_between_two_points(sense: int, swept_deg: float) -> None:
    """Two tangents, and of the angle between the points as the pulley sees them all but acos(r / D) at each."""
    r, d, swept = 7.0, 30.0, math.radians(swept_deg)
    got = taut([spot(d, 0.0), ring(0.0, 0.0, r, sense), spot(d * math.cos(swept), sense * d * math.sin(swept))])
    arc = swept - 2 * math.acos(r / d)

    assert got.length_mm == pytest.approx(2 * math.sqrt(d * d - r * r) + r * arc, abs=1e-12)
    assert got.bends_deg == pytest.approx(math.degrees(arc), abs=1e-9)


def test_an_open_belt_round_two_pulleys() -> None:
    """L = 2 sqrt(C² - (R - r)²) + R (pi + 2 a) + r (pi - 2 a) with sin a = (R - r) / C."""
    big, small, c = 11.0, 4.0, 37.0
    a = math.asin((big - small) / c)
    start = spot(c / 2, -(big + small) / 2 / math.cos(a))  # in the middle of the lower run
    want = 2 * math.sqrt(c * c - (big - small) ** 2) + big * (math.pi + 2 * a) + small * (math.pi - 2 * a)

    belt = [start, ring(c, 0.0, small, 1), ring(0.0, 0.0, big, 1), start]

    assert taut(belt).length_mm == pytest.approx(want, abs=1e-9)


def test_a_crossed_belt_round_two_pulleys_with_opposed_axes() -> None:
    """L = 2 sqrt(C² - (R + r)²) + (R + r) (pi + 2 a) with sin a = (R + r) / C; an axis told the other way changes nothing."""
    big, small, c = 11.0, 4.0, 37.0
    a = math.asin((big + small) / c)
    start = spot(c * big / (big + small), 0.0)  # where both runs cross
    want = 2 * math.sqrt(c * c - (big + small) ** 2) + (big + small) * (math.pi + 2 * a)
    for axis, sense in ((Z, -1), ((0.0, 0.0, -1.0), 1)):
        belt = [start, ring(0.0, 0.0, big, 1, loop=True), ring(c, 0.0, small, sense, axis, loop=True), start]

        assert taut(belt).length_mm == pytest.approx(want, abs=1e-9)


def test_a_belt_round_three_equal_pulleys() -> None:
    """L = the triangle's way round + 2 pi r."""
    r, corners = 3.0, [(0.0, 0.0), (40.0, 0.0), (13.0, 30.0)]
    start = spot(20.0, -r)
    got = taut([start, *(ring(*corners[k], r, 1) for k in (1, 2, 0)), start])
    way = sum(math.dist(corners[k], corners[k - 1]) for k in range(3))

    assert got.length_mm == pytest.approx(way + 2 * math.pi * r, abs=1e-9)
    assert got.bends_deg == pytest.approx(360.0, abs=1e-9)


def test_a_cord_lifts_off_where_it_would_have_to_be_pushed() -> None:
    """The straight way past a pulley on its own side is the cord; a hair nearer, the pulley turns it."""
    past = [spot(-20.0, -5.1), ring(0.0, 0.0, 5.0, 1), spot(20.0, -5.1)]
    on = [spot(-20.0, -4.9), ring(0.0, 0.0, 5.0, 1), spot(20.0, -4.9)]

    assert taut(past).length_mm == pytest.approx(40.0, abs=1e-12)
    assert 1 not in taut(past).touched
    assert 1 in taut(on).touched
    assert 40.0 < taut(on).length_mm < 40.01


def test_of_two_pulleys_the_one_in_the_way_stays() -> None:
    """A second pulley is left out, and is taken back where the way over the first alone would cross it."""
    low = [spot(-30.0, 0.0), ring(-10.0, 8.0, 5.0, 1), ring(10.0, -2.0, 5.0, 1), spot(30.0, 0.0)]

    assert taut(low).touched == {0, 2, 3}


@pytest.mark.parametrize("rise_mm", [0.0, 6.0, 25.0])
def test_on_a_smooth_post_the_cord_is_a_helix(rise_mm: float) -> None:
    """Laid flat, the way is straight: its length is the root of run² + rise²; it bends by arc x cos(slope)."""
    r, d = 4.0, 20.0
    got = taut([spot(d, 0.0), ring(0.0, 0.0, r, 1, slides=True), spot(-d, 1e-9, rise_mm)])
    arc = math.pi - 2 * math.acos(r / d)
    run = 2 * math.sqrt(d * d - r * r) + r * arc

    assert got.length_mm == pytest.approx(math.hypot(run, rise_mm), abs=1e-8)
    assert got.bends_deg == pytest.approx(math.degrees(arc) * run / math.hypot(run, rise_mm), abs=1e-5)


def test_between_grooves_about_crossed_axes_the_line_touches_both_as_seen_along_each_axis() -> None:
    """Two pulleys at a right angle: the points of contact are those that a search over both angles finds."""
    first = Ring(axis=Z, centre_mm=(0.0, 0.0, 0.0), radius_mm=5.0, sense=1)
    second = Ring(axis=(0.0, 1.0, 0.0), centre_mm=(40.0, 0.0, 9.0), radius_mm=7.0, sense=-1)
    got = taut([spot(0.0, 40.0), first, second, Spot(at_mm=(40.0, 3.0, 60.0))])
    leaves, comes = got.contacts[1].leaves_mm, got.contacts[2].comes_mm

    def misses(angles: Sequence[float]) -> float:
        a, b = angles
        p = (5 * math.cos(a), 5 * math.sin(a), 0.0)
        q = (40 + 7 * math.cos(b), 0.0, 9 + 7 * math.sin(b))
        way = [q[k] - p[k] for k in range(3)]
        return (way[0] * math.cos(a) + way[1] * math.sin(a)) ** 2 + (way[0] * math.cos(b) + way[2] * math.sin(b)) ** 2

    near = [math.atan2(leaves[1], leaves[0]), math.atan2(comes[2] - 9.0, comes[0] - 40.0)]
    best = minimize(
        misses, [near[0] + 0.05, near[1] - 0.05], method="Nelder-Mead", options={"xatol": 1e-9, "fatol": 1e-16}
    )

    assert misses(near) == pytest.approx(0.0, abs=1e-15)
    assert best.x == pytest.approx(near, abs=1e-6)


def test_a_knot_within_a_drum_is_reached_over_its_rim() -> None:
    """The cord lies on the drum up to above the knot, then goes straight in: tangent + arc + depth."""
    r, d, at = 10.0, 50.0, math.radians(100.0)
    got = taut([spot(d, 0.0), ring(0.0, 0.0, r, 1), spot(8.0 * math.cos(at), 8.0 * math.sin(at))])
    arc = at - math.acos(r / d)

    assert got.length_mm == pytest.approx(math.sqrt(d * d - r * r) + r * arc + 2.0, abs=1e-9)
    assert got.bends_deg == pytest.approx(math.degrees(arc), abs=1e-5)  # the corner at the knot is no bend


def test_a_knot_on_the_near_side_of_a_drum_hangs_free() -> None:
    """Where the rim above the knot can be seen from the cord's other end, the cord lies on nothing."""
    at = math.radians(60.0)
    got = taut([spot(50.0, 0.0), ring(0.0, 0.0, 10.0, 1), spot(10.0 * math.cos(at), 10.0 * math.sin(at))])

    assert 1 not in got.touched
    assert got.length_mm == pytest.approx(math.dist((50.0, 0.0), (10 * math.cos(at), 10 * math.sin(at))), abs=1e-9)


def test_a_channel_keeps_its_length_and_turns_the_cord_at_its_mouths() -> None:
    """Through an L-shaped channel of 10 + 10 mm: two sides and the straight ways to its mouths; corner and mouths bend."""
    pipe = Run(line_mm=((0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (10.0, 10.0, 0.0)))
    got = taut([spot(-4.0, 3.0), pipe, spot(10.0, 22.0)])

    assert got.length_mm == pytest.approx(5.0 + 20.0 + 12.0, abs=1e-12)
    assert got.bends_deg == pytest.approx(90.0 + math.degrees(math.atan2(3, 4)), abs=1e-9)

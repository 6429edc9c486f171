"""Ways out of another body: known by hand for a ball in a socket, a slot, a bayonet and a slide that turns a corner."""

from __future__ import annotations

import math

import pytest
from manifold3d import CrossSection, Manifold

from planner.assembly.drawn.way_out import has_way_out, may_hold, unscrews

BALL = Manifold.sphere(8.0, 16)
UP = ((0.0, 0.0, 1.0), (0.0, 0.0, 0.0))


def _block(x: float, y: float, z: float) -> Manifold:
    """Return a block about the origin."""
    return Manifold.cube((x, y, z), True)


def _socket(top_mm: float) -> Manifold:
    """Return a socket of 16.6 mm whose wall ends so far over the middle of its ball."""
    wall = Manifold.cylinder(12.0 + top_mm, 14.0, 14.0, 32).translate((0.0, 0.0, -12.0))
    return wall - Manifold.sphere(8.3, 16)


@pytest.mark.parametrize(("top_mm", "leaves"), [(4.8, False), (0.0, True)], ids=["mouth 13.5 mm", "mouth 16.6 mm"])
def test_a_ball_leaves_a_socket_only_by_a_mouth_that_is_as_wide(top_mm: float, leaves: bool) -> None:
    """At 4.8 mm over the middle a sphere of radius 8.3 is 2 (8.3² - 4.8²)^0.5 = 13.5 mm wide, by geometry."""
    assert may_hold(BALL, _socket(top_mm))
    assert has_way_out(BALL, _socket(top_mm)) is leaves


def test_a_bar_leaves_a_tube_at_an_angle_of_its_own_by_the_tube_s_axis() -> None:
    """A bar in a tube that is turned by 17 degrees about x leaves along (0, -sin 17, cos 17) alone."""
    tube = (_block(12.0, 12.0, 40.0) - _block(6.2, 6.2, 50.0)).rotate((17.0, 0.0, 0.0))
    bar = _block(6.0, 6.0, 40.0).rotate((17.0, 0.0, 0.0))
    assert has_way_out(
        bar, tube, (((0.0, -math.sin(math.radians(17.0)), math.cos(math.radians(17.0))), (0.0, 0.0, 0.0)),)
    )


def test_a_bayonet_leaves_after_a_turn() -> None:
    """A cross bar under a plate with a slot across it comes out once it has turned by 90 degrees."""
    plate = _block(40.0, 40.0, 4.0) - Manifold.cylinder(4.0, 4.0, 4.0, 12, True) - _block(24.0, 5.0, 10.0)
    box = _block(40.0, 40.0, 30.0) - _block(36.0, 36.0, 20.0).translate((0.0, 0.0, 3.0)) - _block(36.0, 36.0, 40.0)
    holder = plate.translate((0.0, 0.0, 13.0)) + box + _block(40.0, 40.0, 4.0).translate((0.0, 0.0, -13.0))
    key = _block(4.0, 22.0, 4.0) + Manifold.cylinder(30.0, 2.0, 2.0, 12)
    assert has_way_out(key, holder, (UP,))


def test_a_head_in_a_keyhole_leaves_by_two_straight_ways() -> None:
    """It slides 12 mm to the wide end, and lifts there."""
    cover = (
        _block(40.0, 20.0, 3.0)
        - _block(24.0, 4.6, 9.0)
        - Manifold.cylinder(9.0, 5.0, 5.0, 24, True).translate((12.0, 0, 0))
    )
    shell = _block(40.0, 20.0, 20.0) - _block(36.0, 16.0, 16.0)
    holder = shell - _block(60.0, 30.0, 6.0).translate((0.0, 0.0, 10.0)) + cover.translate((0.0, 0.0, 8.5))
    pin = Manifold.cylinder(3.0, 4.0, 4.0, 12) + Manifold.cylinder(20.0, 2.0, 2.0, 12)
    assert has_way_out(pin, holder)


@pytest.mark.parametrize("hand", [1.0, -1.0], ids=["right-handed", "left-handed"])
def test_a_screw_leaves_its_nut_by_turning_along_its_own_pitch(hand: float) -> None:
    """An eccentric round, drawn twisted by two turns over 12 mm: 6 mm a turn, either hand; 4 mm a turn is no thread of it."""

    def twisted(radius_mm: float) -> Manifold:
        round_mm = CrossSection.circle(radius_mm, 16).translate((1.0, 0.0))
        return round_mm.extrude(12.0, 24, hand * 720.0)

    screw, nut = twisted(4.0), Manifold.cube((14.0, 14.0, 12.0), True).translate((0.0, 0.0, 6.0)) - twisted(4.3)
    assert has_way_out(screw, nut, screws=[(UP, 6.0)])
    assert not unscrews(screw, nut, (UP, 4.0))

"""Wobble through chains, against closed forms and against random motions within the plays."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.finding import Vec3
from planner.mechanism.play.sleeve import Sleeve, ways_of_ends
from planner.mechanism.play.wobble import PinPlay, wobble_of

Z: Vec3 = (0.0, 0.0, 1.0)
PLAY = (0.1, 0.2, 0.4)


def sleeve(x: float = 0.0, long_mm: float = 6.0, axis: Vec3 = Z, play: tuple[float, float, float] = PLAY) -> Sleeve:
    return Sleeve(axis=axis, at_mm=(x, 0.0, 0.0), long_mm=long_mm, play_mm=play)


def pin(*sleeves: Sleeve, float_mm: float = 0.0, tilt_rad: float = math.inf, spread_mm: float = 0.0) -> PinPlay:
    room = (max(float_mm - spread_mm, 0.0), float_mm, float_mm + spread_mm)
    return PinPlay(sleeves=sleeves, float_mm=room, tilt_rad=tilt_rad)


@pytest.mark.parametrize(("reach", "long"), [(60.0, 6.0), (20.0, 14.0), (4.0, 20.0)])
def test_one_pin_at_worst(reach: float, long: float) -> None:
    """The larger of play x reach / length, along the axis, and half the play, across it."""
    found = wobble_of([pin(sleeve(long_mm=long))], (reach, 0.0, 0.0))

    assert found.worst_mm == pytest.approx(max(0.4 * reach / long, 0.2), rel=1e-6)


def test_a_chain_adds_up() -> None:
    """Two parallel pins in a row: each tilts the tip by its own reach over its own length."""
    found = wobble_of([pin(sleeve()), pin(sleeve(30.0, 8.0))], (70.0, 0.0, 0.0))

    assert found.worst_mm == pytest.approx(0.4 * 70.0 / 6.0 + 0.4 * 40.0 / 8.0, rel=1e-6)


def test_no_motion_within_the_plays_goes_farther_and_some_go_nearly_as_far() -> None:
    """Ten thousand random places of all ends of three bores at odd angles stay below the worst, the best within 8 %."""
    rng = np.random.default_rng(3)
    tip = (50.0, 12.0, -9.0)
    axes: list[Vec3] = [Z, (0.6, 0.0, 0.8), (0.0, 1.0, 0.0)]
    sleeves = [sleeve(18.0 * k, 6.0 + k, axis) for k, axis in enumerate(axes)]
    total = np.zeros((10_000, 3))
    for one in sleeves:
        for map_ in ways_of_ends(one, tip):
            side = np.array([one.axis[2], 0.0, -one.axis[0]]) if one.axis[1] < 1.0 else np.array([1.0, 0.0, 0.0])
            side = side / np.linalg.norm(side)
            turn = rng.uniform(0, 2 * math.pi, len(total))[:, None]
            ends = 0.2 * (np.cos(turn) * side + np.sin(turn) * np.cross(one.axis, side))
            total += ends @ map_.T
    far = float(np.linalg.norm(total, axis=1).max())

    worst = wobble_of([pin(one) for one in sleeves], tip).worst_mm
    assert far <= worst + 1e-9
    assert far > 0.92 * worst


def test_nine_of_ten_printers_stay_below_their_share() -> None:
    """For one pin p90 is the 90th percentile of a triangle, high - root(0.1 (high - low)(high - middle)), within 2 %."""
    found = wobble_of([pin(sleeve())], (60.0, 0.0, 0.0))
    play = 0.4 - math.sqrt(0.1 * 0.3 * 0.2)

    assert found.p90_mm == pytest.approx(play * 10.0, rel=0.02)
    assert found == wobble_of([pin(sleeve())], (60.0, 0.0, 0.0))  # the same printers each time
    assert wobble_of([pin(sleeve(play=(0.2, 0.2, 0.2)))], (60.0, 0.0, 0.0)).p90_mm == pytest.approx(2.0, rel=1e-3)


def test_in_a_chain_the_worst_is_the_corner_and_nine_of_ten_stay_below_it() -> None:
    """The share of printers lies under the corner, and no lower than where every bore is drawn for itself.

    Two parallel pins: the tip wobbles by the sum of play x reach / length. Bores of one printer print alike, so its
    plays rise together; 20,000 devices with both plays drawn apart have a lower tenth, by sampling.
    """
    found = wobble_of([pin(sleeve()), pin(sleeve(30.0, 8.0))], (70.0, 0.0, 0.0))
    rng = np.random.default_rng(5)
    first, second = rng.triangular(*PLAY, (2, 20_000))
    apart = float(np.quantile(first * 70.0 / 6.0 + second * 40.0 / 8.0, 0.9))

    assert found.worst_mm == pytest.approx(0.4 * 70.0 / 6.0 + 0.4 * 40.0 / 8.0, rel=1e-6)
    assert apart < found.p90_mm < 0.9 * found.worst_mm


def test_what_a_drill_sets_is_alike_on_all_printers() -> None:
    """Bores drilled to one size leave p90 at the worst: no spread."""
    drilled = pin(sleeve(play=(0.2, 0.2, 0.2)))
    found = wobble_of([drilled, drilled], (60.0, 0.0, 0.0))

    assert found.p90_mm == pytest.approx(found.worst_mm, rel=1e-3)


def test_what_faces_hold_varies_as_their_gap_is_printed() -> None:
    """A disc of radius 8 with 0.4 ± 0.1 mm at each face tilts by 0.5 / 8 at worst, by 0.455 / 8 on nine of ten printers.

    The 90th percentile of a triangle from 0.3 to 0.5 mm is 0.5 - root(0.1 x 0.2 x 0.1) = 0.455 mm, within 2 %.
    """
    found = wobble_of(
        [pin(sleeve(play=(0.5, 0.6, 0.7)), float_mm=0.4, tilt_rad=0.4 / 8.0, spread_mm=0.1)], (60.0, 0.0, 0.0)
    )

    assert found.worst_mm == pytest.approx(60.0 * 0.5 / 8.0, rel=1e-3)
    assert found.p90_mm == pytest.approx(60.0 * 0.4553 / 8.0, rel=0.02)


def test_two_joints_in_a_row_held_by_a_bore_and_by_faces() -> None:
    """A hinge held by its bore, 70 mm from the tip, and one held by faces, 40 mm from it: each with its own lever."""
    held = pin(sleeve(30.0, 8.0), float_mm=0.4, tilt_rad=0.02, spread_mm=0.1)
    found = wobble_of([pin(sleeve()), held], (70.0, 0.0, 0.0))

    assert found.worst_mm == pytest.approx(0.4 * 70.0 / 6.0 + 0.02 * 0.5 / 0.4 * 40.0, rel=1e-3)
    assert found.p90_mm < 0.95 * found.worst_mm


def test_what_faces_leave_of_the_play_moves_the_part_aside() -> None:
    """Held at half its tilt a bore with 0.4 mm of play still gives 0.1 mm along the arm: root(1.2² + 0.1²) mm.

    0.4 mm over 20 mm would tilt it by 0.02; faces end that at 0.01, and half of the play is left for both ends alike.
    """
    held = pin(sleeve(long_mm=20.0), tilt_rad=0.01)

    assert wobble_of([held], (120.0, 0.0, 0.0)).worst_mm == pytest.approx(math.hypot(1.2, 0.1), rel=1e-4)


def test_without_pins_nothing_wobbles() -> None:
    """Nor where no bore has any play."""
    assert wobble_of([], (60.0, 0.0, 0.0)).worst_mm == 0.0
    assert wobble_of([pin(sleeve(play=(0.0, 0.0, 0.0)))], (60.0, 0.0, 0.0)).worst_mm == 0.0


def test_faces_beside_a_part_hold_it_before_its_bore_does() -> None:
    """A disc of radius 8 with 0.4 mm at each face tilts by 0.05: 60 mm away that is 3 mm, where the bore allows 4 mm."""
    held = pin(sleeve(), float_mm=0.4, tilt_rad=0.4 / 8.0)

    assert wobble_of([held], (60.0, 0.0, 0.0)).worst_mm == pytest.approx(3.0, rel=0.01)


def test_a_part_that_faces_do_not_hold_floats_between_them_too() -> None:
    """Tilted by 0.4 / 20 of its 0.05, six tenths of 0.4 mm are left along the axis: 60 x 0.02 + 0.24 mm."""
    loose = pin(sleeve(long_mm=20.0), float_mm=0.4, tilt_rad=0.05)

    assert wobble_of([loose], (60.0, 0.0, 0.0)).worst_mm == pytest.approx(60.0 * 0.02 + 0.24, rel=0.01)

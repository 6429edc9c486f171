"""Lengths and widths from photos whose truth OpenCV's own camera model knows: inside the range that is said."""

from __future__ import annotations

import numpy as np
import pytest

from planner.output.asking.photo_words import again
from planner.photo import fitted_camera, measured
from planner.photo.measured import round_mm
from tests.photo.rendered import SIZE_PX, cylinder_edges_px, shot
from tests.photo.thousand import PHONE_PX, card_of, tried


def test_nineteen_of_twenty_true_lengths_lie_inside_a_range_of_three_percent() -> None:
    """Cylinders of 40 to 100 mm and lengths beside the card, 12 million pixels, from a metre, as ``tests.photo.thousand``.

    93 % are asked; 30 photos from a truth of 95 % show fewer than 26 inside once in 60 times (binomial distribution).
    """
    rng = np.random.default_rng(5)
    both = [tried(rng, PHONE_PX, drawn=False) for _ in range(30)]

    for some in zip(*both, strict=True):
        assert sum(one.inside for one in some) >= 26
        assert max(one.found.half_percent for one in some) <= 3.0


def test_a_photo_of_few_pixels_has_a_wider_range_and_says_so() -> None:
    """The same in drawn photos of 2 million pixels: a mark is a pixel off, 2.5 times as many millimetres."""
    rng = np.random.default_rng(7)
    both = [tried(rng, SIZE_PX) for _ in range(4)]
    wide = [one for some in both for one in some if one.found.half_percent > 3.0]

    assert sum(one.inside for some in both for one in some) >= 7
    assert all("take it again" in again(one.found) for one in wide)


def test_a_limb_is_measured_by_its_edges_and_not_by_what_the_card_shows() -> None:
    """A cylinder of 80 mm seen 25 degrees from its side: the card's plane shows it 10 % too wide, by the cosine."""
    rng = np.random.default_rng(2)
    one = shot(rng, tilt_most_deg=0.0)
    eye = one.eye_mm
    along = np.array([0.0, 1.0, 0.0])
    away = eye[2] * np.tan(np.radians(25.0)) + eye[0] - 90.0
    pair = cylinder_edges_px(one, 80.0, 0.0, -away, along)
    fitted = fitted_camera(card_of(one, rng, 0.02), SIZE_PX, focal_35_mm=36.0 * one.focal_px / SIZE_PX[0])
    flat = measured(fitted, pair)

    assert round_mm(fitted.camera, pair, 0.0) == pytest.approx(80.0, rel=0.01)
    assert flat.value_mm == pytest.approx(80.0 / np.cos(np.radians(25.0)), rel=0.015)


def test_thirty_millimetres_above_the_card_are_eight_percent_at_four_hundred() -> None:
    """By similar triangles, 400 / 370: a length at 30 mm looks 8.1 % longer, and is right where the height is said."""
    rng = np.random.default_rng(4)
    one = shot(rng, tilt_most_deg=0.0, away_mm=400.0)
    far = -one.eye_mm[2]
    pair = one.seen_px(np.array([[60.0, 120.0, -30.0], [120.0, 120.0, -30.0]]))
    fitted = fitted_camera(card_of(one, rng, 0.02), SIZE_PX, focal_35_mm=36.0 * one.focal_px / SIZE_PX[0])

    assert measured(fitted, pair).value_mm == pytest.approx(60.0 * far / (far - 30.0), rel=0.004)
    assert measured(fitted, pair, 30.0).value_mm == pytest.approx(60.0, rel=0.004)


def test_a_card_that_was_printed_small_measures_by_its_ruler() -> None:
    """A ruler of 97 mm: everything is 3 % shorter than the card thinks."""
    rng = np.random.default_rng(6)
    one = shot(rng)
    fitted = fitted_camera(card_of(one, rng), SIZE_PX)
    pair = one.seen_px(np.array([[60.0, 120.0, 0.0], [120.0, 120.0, 0.0]]))

    assert measured(fitted, pair, ruler_mm=97.0).value_mm == pytest.approx(0.97 * measured(fitted, pair).value_mm)

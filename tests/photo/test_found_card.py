"""The card is found in a rendered photo; without it one sentence says what to do."""

from __future__ import annotations

import numpy as np
import pytest

from planner.errors import PhotoError
from planner.photo import find_card, fitted_camera
from tests.photo.rendered import SIZE_PX, photo, shot


def test_all_marks_are_found_and_the_tilt_is_right() -> None:
    """A photo with blur, noise and a bent lens: eight marks, corners to a third of a pixel, tilt to 3 degrees."""
    rng = np.random.default_rng(1)
    one = shot(rng)
    card = find_card(photo(one, rng))
    off = one.seen_px(card.card_mm) - card.seen_px
    fitted = fitted_camera(card, SIZE_PX)
    eye = one.eye_mm

    assert card.marks_n == 8
    assert float(np.sqrt((off**2).mean())) < 0.33
    assert fitted.camera.eye_mm[2] == pytest.approx(eye[2], rel=0.15)


def test_a_photo_without_the_card_says_so() -> None:
    """Grey ground."""
    with pytest.raises(PhotoError, match="0 of the card's 8 marks"):
        find_card(np.full((600, 800), 120, np.uint8))

"""A camera is fitted to the corners, with how sure it is; what is no flat card is refused."""

from __future__ import annotations

import numpy as np
import pytest

from planner.errors import PhotoError
from planner.photo import FoundCard, fitted_camera, marks
from tests.photo.rendered import SIZE_PX, shot

CORNERS_MM = np.vstack([mark.corners_mm for mark in marks()])


def test_corners_without_error_give_the_camera_back() -> None:
    """The eye to 3 %, and the corners to a twentieth of a pixel."""
    one = shot(np.random.default_rng(8))
    fitted = fitted_camera(FoundCard(seen_px=one.seen_px(CORNERS_MM), card_mm=CORNERS_MM, marks_n=8), SIZE_PX)

    assert fitted.camera.eye_mm == pytest.approx(one.eye_mm, rel=0.1, abs=40.0)
    assert fitted.camera.seen_px(CORNERS_MM) == pytest.approx(one.seen_px(CORNERS_MM), abs=0.05)


def test_a_card_that_is_not_flat_is_refused() -> None:
    """One half stands up by 40 mm."""
    one = shot(np.random.default_rng(9))
    bent = CORNERS_MM - np.outer(np.maximum(CORNERS_MM[:, 1] - 120.0, 0.0), [0.0, 0.0, 1.0])
    with pytest.raises(PhotoError, match="flat card"):
        fitted_camera(FoundCard(seen_px=one.seen_px(bent), card_mm=CORNERS_MM, marks_n=8), SIZE_PX)

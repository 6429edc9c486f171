"""The camera: points seen and taken back are the same, and OpenCV sees them where we do."""

from __future__ import annotations

import numpy as np
import pytest

from planner.photo import Camera
from tests.photo.rendered import shot


@pytest.mark.parametrize("seed", range(5))
def test_a_camera_sees_what_opencv_sees_and_pixels_go_back_to_their_points(seed: int) -> None:
    """Another library's projection, with tilt and a bent lens, to a thousandth of a pixel and of a millimetre."""
    rng = np.random.default_rng(seed)
    one = shot(rng)
    ours = Camera(numbers=np.array([one.focal_px, *one.middle_px, *one.bend, *one.turn, *one.shift_mm]))
    points = np.column_stack([rng.uniform(-50, 230, 9), rng.uniform(-50, 290, 9), np.full(9, -12.0)])

    assert ours.seen_px(points) == pytest.approx(one.seen_px(points), abs=1e-3)
    assert ours.on_level(ours.seen_px(points), 12.0) == pytest.approx(points, abs=1e-3)
    assert ours.eye_mm == pytest.approx(one.eye_mm)

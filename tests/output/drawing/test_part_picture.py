"""The picture of a part: a PNG of the size asked for, with the part on a transparent ground."""

from __future__ import annotations

import io

import numpy as np
from PIL import Image

from planner.output import picture_png
from tests.shapes import cuboid


def test_the_part_is_drawn_and_the_ground_is_clear() -> None:
    """Corners of the frame are transparent, its middle is not; light on three faces differs."""
    picture = np.asarray(Image.open(io.BytesIO(picture_png(cuboid(20, 15, 10), 90, 60))))

    assert picture.shape == (60, 90, 4)
    assert picture[0, 0, 3] == picture[-1, -1, 3] == 0
    assert picture[30, 45, 3] == 255
    assert len(np.unique(picture[picture[..., 3] == 255][:, 0])) >= 3

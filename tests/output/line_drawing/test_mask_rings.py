"""Masks become outlines."""

from __future__ import annotations

import numpy as np
import pytest
from shapely import Polygon

from planner.output.line_drawing.mask_rings import mask_rings


def test_a_ring_of_pixels_has_an_outside_and_a_hole() -> None:
    """Their areas differ by the pixels that are covered; a pixel is one square."""
    y, x = np.mgrid[0:60, 0:80]
    far = np.hypot(x - 40, y - 30)
    mask = (far < 25) & (far > 12)
    areas = sorted(Polygon(ring).area for ring in mask_rings(mask))
    assert len(areas) == 2
    assert areas[1] - areas[0] == pytest.approx(mask.sum(), rel=0.03)


def test_a_rectangle_is_four_corners() -> None:
    """They lie half a step around its pixels."""
    mask = np.zeros((20, 30), dtype=bool)
    mask[5:15, 10:25] = True
    (ring,) = mask_rings(mask)
    assert sorted(map(tuple, ring.tolist())) == [(9.5, 4.5), (9.5, 14.5), (24.5, 4.5), (24.5, 14.5)]

"""A solid: volume and area by closed forms, copies only, winding outward after a mirror."""

from __future__ import annotations

import numpy as np
import pytest

from tests.shapes import cuboid


def test_a_cuboid_by_hand() -> None:
    """20 x 15 x 10 mm: 3000 mm3, 2 (300 + 200 + 150) mm2, wherever it lies."""
    box = cuboid(20, 15, 10).moved((1e4, -1e4, 500.0))

    assert box.volume_mm3 == pytest.approx(3000.0, rel=1e-9)
    assert box.area_mm2 == pytest.approx(1300.0)
    assert box.size_mm == pytest.approx((20.0, 15.0, 10.0))


def test_copies_never_change_the_original() -> None:
    """Scaled by 2 the volume is eight times that; mirrored it stays above zero; the first solid is as it was."""
    box = cuboid(20, 15, 10)

    assert box.scaled(2.0).volume_mm3 == pytest.approx(24000.0)
    assert box.scaled((1.0, 2.0, 1.0)).size_mm == pytest.approx((20.0, 30.0, 10.0))
    assert box.mirrored().volume_mm3 == pytest.approx(3000.0)
    assert box.volume_mm3 == pytest.approx(3000.0)
    with pytest.raises(ValueError, match="read-only"):
        box.vertices_mm[0, 0] = 1.0


def test_a_mirroring_matrix_keeps_winding_outward() -> None:
    """Determinant below zero turns the faces round."""
    assert cuboid(20, 15, 10).transformed(np.diag([1.0, -2.0, 1.0])).volume_mm3 == pytest.approx(6000.0)

"""The grid over two numbers, against a density whose moments are known."""

from __future__ import annotations

import numpy as np
import pytest

from planner.calibrate.pooling.spread_grid import weighed_grid


@pytest.mark.parametrize("sd", [1.0, 0.01])
def test_it_finds_where_the_density_is_however_narrow(sd: float) -> None:
    """Two normal logarithms: their means and standard deviations come out, of a wide density and of a narrow one."""
    x, y, weights = weighed_grid(
        lambda a, b: -0.5 * ((a - 0.3) / sd) ** 2 - 0.5 * ((b + 1.0) / sd) ** 2, (-8, 8), (-8, 8)
    )
    mean = weights @ np.log(x), weights @ np.log(y)

    assert weights.sum() == pytest.approx(1.0)
    assert mean == pytest.approx([0.3, -1.0], abs=0.02 * sd)
    assert np.sqrt(weights @ (np.log(x) - mean[0]) ** 2) == pytest.approx(sd, rel=0.02)

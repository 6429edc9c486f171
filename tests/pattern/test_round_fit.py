"""The cylinder or cone that a patch lies on is found from its vertices."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.pattern.patch import Patch
from planner.pattern.round_fit import round_fit
from tests.pattern.surfaces import cap, shell

TURN = np.array(
    [[0.36, 0.48, -0.8], [-0.8, 0.6, 0.0], [0.48, 0.64, 0.6]]
)  # an orthogonal matrix: rows of length one, at right angles


@pytest.mark.parametrize("degrees", [70.0, 180.0, 242.0, 360.0])
@pytest.mark.parametrize(("low", "high"), [(31.0, 31.0), (31.0, 26.7), (20.0, 60.0)])
def test_a_drawn_cylinder_or_cone_is_found(low: float, high: float, degrees: float) -> None:
    """Axis, radius and slope_ratio come out as drawn, however it lies and however far it goes round."""
    drawn = shell(low, high, 100, degrees)
    fit = round_fit(Patch(vertices_mm=drawn.vertices_mm @ TURN.T + [5, -7, 11], faces=drawn.faces))

    assert fit is not None
    assert fit.off_mm < 1e-6
    assert fit.sense == -1
    assert abs(fit.axis @ TURN[:, 2]) == pytest.approx(1.0, abs=1e-9)
    assert math.degrees(math.atan(fit.slope_ratio)) == pytest.approx(
        math.degrees(math.atan(abs(high - low) / 100)), abs=1e-4
    )


def test_a_sphere_is_no_cylinder() -> None:
    """A cap's vertices lie far off every cylinder and cone."""
    fit = round_fit(cap(40, 40))

    assert fit is None or fit.off_mm > 0.5

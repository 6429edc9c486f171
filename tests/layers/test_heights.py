"""Layer heights: they hold the volume within the bound that they state."""

from __future__ import annotations

import pytest

from tests.layers.conftest import Estimated
from tests.shapes import Manifold, ball, solid_of


@pytest.mark.parametrize("shape", ["ball", "cone", "box"])
def test_layers_hold_the_volume_within_the_bound_that_they_state(estimated: Estimated, shape: str) -> None:
    """The midpoint rule errs by no more than half a layer times the change of area (numerical analysis)."""
    solid = {
        "ball": ball(30.0, 128),
        "cone": solid_of(Manifold.cylinder(20, 12, 3, 96)),
        "box": solid_of(Manifold.cube((20, 20, 7.13))),
    }[shape]
    found = estimated(solid)

    assert abs(found.sections_mm3 - solid.volume_mm3) <= found.sections_slack_mm3
    assert found.sections_mm3 == pytest.approx(solid.volume_mm3, rel=3e-3)

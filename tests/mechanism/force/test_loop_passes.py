"""A flat loop is told by statics; one whose axes lean is not flat."""

from __future__ import annotations

from planner.mechanism.force.loop_passes import flattened
from planner.mechanism.force.reactions import Bearing


def test_axes_that_lean_by_rounding_are_flat_and_others_are_not() -> None:
    """A thousandth is rounding of a bore; a tenth is a spatial loop."""
    up = Bearing(bodies=(-1, 0), axis=(0.0, 0.0, 1.0), at_mm=(0.0, 0.0, 0.0))
    near, far = (Bearing(bodies=(0, 1), axis=(lean, 0.0, 1.0), at_mm=(1.0, 0.0, 0.0)) for lean in (1e-3, -0.1))
    flat = flattened([up, near])

    assert flat is not None
    assert flat[1].axis == (0.0, 0.0, 1.0)
    assert flattened([up, Bearing(bodies=far.bodies, axis=(0.1, 0.0, 0.99), at_mm=far.at_mm)]) is None

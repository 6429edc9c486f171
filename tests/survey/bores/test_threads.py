"""Threads drawn as grooves."""

from __future__ import annotations

import pytest

from planner.survey.bores.bores import bores_of
from tests.shapes import Manifold, cylinder, solid_of


def _grooved(steps_mm: list[float]) -> Manifold:
    """Return a block of 12 mm with a bore of 5 mm and V-shaped grooves up to 5.8 mm about some heights."""
    body = Manifold.cube((20, 20, 12)) - cylinder(5.0, 14, 48).translate((10, 10, -1))
    for z in steps_mm:
        body -= Manifold.cylinder(0.5, 2.4, 2.9, 48).translate((10, 10, z - 0.5))
        body -= Manifold.cylinder(0.5, 2.9, 2.4, 48).translate((10, 10, z))
    return body


def test_grooves_at_even_steps_are_one_bore_as_wide_as_its_lands() -> None:
    """Eight grooves, 1.3 mm apart, the last land three times as long as the others: one bore of 5 mm with its step."""
    (bore,) = bores_of(solid_of(_grooved([1.0 + 1.3 * k for k in range(8)])))[0]

    assert bore.drawn_diameter_mm == pytest.approx(5.0, abs=0.01)
    assert bore.depth_mm == pytest.approx(12.0, abs=0.1)
    assert bore.groove_pitch_mm == pytest.approx(1.3, rel=0.02)
    assert bore.through


def test_a_plain_bore_has_no_step() -> None:
    """Nor has one with a single groove, which is no thread."""
    for steps in ([], [6.0]):
        assert all(bore.groove_pitch_mm is None for bore in bores_of(solid_of(_grooved(steps)))[0])

"""Threads drawn as grooves."""

from __future__ import annotations

import numpy as np
import pytest

from planner.survey.bores.bores import bores_of
from tests.shapes import Manifold, cylinder, solid_of
from tests.survey.drawn.drawn_threads import METRIC, PROFILES, SHARP, SQUARE, Profile, rings, wound


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


@pytest.mark.parametrize(("minor_mm", "pitch_mm", "turns_n"), [(5.0, 0.8, 8), (10.0, 2.0, 6), (8.0, 1.5, 3)])
@pytest.mark.parametrize("kind", PROFILES)
def test_a_drawn_thread_is_one_bore_of_its_minor_diameter(
    kind: str, minor_mm: float, pitch_mm: float, turns_n: int
) -> None:
    """V, trapezoid and square: the flat floors of the grooves are no second bore, and the step is told."""
    certain, possible = bores_of(solid_of(rings(kind, minor_mm, pitch_mm, turns_n)))

    assert [bore.drawn_diameter_mm for bore in certain] == pytest.approx([minor_mm], abs=0.01)
    assert certain[0].groove_pitch_mm == pytest.approx(pitch_mm, rel=0.02)
    assert certain[0].depth_mm == pytest.approx(turns_n * pitch_mm, abs=0.05)
    assert not possible


def test_a_ring_wider_than_a_groove_stays_a_bore_of_its_own() -> None:
    """A recess as long as two steps of a thread, below it, is a step of the stack and no floor of a groove."""
    body = Manifold.cube((20, 20, 4), True).translate((0, 0, -2)) - cylinder(7.0, 6, 48).translate((0, 0, -5))
    found = bores_of(solid_of(body + rings("square", 5.0, 1.0, 8)))[0]

    assert sorted(round(bore.drawn_diameter_mm, 2) for bore in found) == [5.0, 7.0]


@pytest.mark.parametrize(
    ("minor_mm", "major_mm", "pitch_mm", "turns_n"), [(4.134, 5.0, 0.8, 4), (7.835, 10.0, 2.0, 3), (10.0, 12.0, 2.0, 3)]
)
@pytest.mark.parametrize("profile", [METRIC, SHARP, SQUARE], ids=["metric", "sharp", "square"])
def test_a_helix_is_one_bore_of_its_minor_diameter(
    profile: Profile, minor_mm: float, major_mm: float, pitch_mm: float, turns_n: int
) -> None:
    """M5 x 0.8 and M10 x 2 (minor diameters by ISO 68-1) and 10 x 2: one bore with its step, clear as its crests' 36-gon."""
    certain, possible = bores_of(solid_of(wound(minor_mm, major_mm, pitch_mm, turns_n, 36, profile)))

    assert [bore.drawn_diameter_mm for bore in certain] == pytest.approx([minor_mm], abs=0.01)
    assert certain[0].diameter_mm == pytest.approx(minor_mm * np.cos(np.pi / 36), rel=1e-3)
    assert certain[0].groove_pitch_mm == pytest.approx(pitch_mm, rel=0.02)
    assert certain[0].depth_mm == pytest.approx(turns_n * pitch_mm, abs=0.05 * pitch_mm)
    assert certain[0].through
    assert not possible


def test_a_helix_that_runs_into_a_plain_bore_is_a_thread_too() -> None:
    """Four turns, cut off by a plain bore of the minor diameter, 3 mm deep: one diameter, one step, no floor."""
    body = wound(4.134, 5.0, 0.8, 4)
    plain = Manifold.cube((20, 20, 3), True).translate((0, 0, -1.5)) - cylinder(4.134, 4, 36).translate((0, 0, -2))
    found = bores_of(solid_of(body + plain))[0]

    assert {round(bore.drawn_diameter_mm, 2) for bore in found} == {4.13}
    assert sum(bore.groove_pitch_mm is not None for bore in found) == 1

"""A buck is the limb's side of the padding, closed, on a flat base."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.finding import Vec3
from planner.mesh import Solid
from planner.pattern.buck import FOOT_MM, buck
from planner.pattern.skin_patch import skin_patch
from tests.pattern.shells import bowl, half_shell


def buck_of(solid: Solid, thick_mm: float, toward: Vec3 | None = None) -> Solid | str:
    skin = skin_patch(solid, toward)
    assert skin is not None
    return buck(skin, thick_mm, "buck")


def test_half_a_pipe_gives_half_a_round_bar_on_a_foot() -> None:
    """Volume: (π r² / 2 + 2 r h) L with r = R - t and a foot of height h (Euclid), its base flat at z = 0."""
    made = buck_of(half_shell(31, 3.2, 100), 3.0)

    assert isinstance(made, Solid)
    assert made.sound
    assert made.manifold is not None
    assert made.volume_mm3 == pytest.approx((math.pi * 28**2 / 2 + 2 * 28 * FOOT_MM) * 100, rel=3e-3)
    assert sorted(made.size_mm) == pytest.approx([28 + FOOT_MM, 56, 100], abs=0.05)
    low = made.corners_mm[:, :, 2].max(axis=1) < 1e-6
    a, b, c = (made.corners_mm[low][:, k] for k in range(3))
    assert np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2 == pytest.approx(5600, rel=1e-3)


def test_a_bowl_gives_a_dome() -> None:
    """Its top is a sphere of R - t: volume of a cap π h² (3 r - h) / 3 (Archimedes), on a round foot."""
    made = buck_of(bowl(40, 3, 60), 4.0)
    high, rim = 36 * (1 - math.cos(math.radians(60))), 36 * math.sin(math.radians(60))

    assert isinstance(made, Solid)
    assert made.sound
    assert made.volume_mm3 == pytest.approx(
        math.pi * high**2 * (3 * 36 - high) / 3 + math.pi * rim**2 * FOOT_MM, rel=2e-2
    )


def test_a_surface_that_bulges_for_the_shell_gives_a_hollow_form() -> None:
    """The outside of a dome as skin side: the form is a block with a hollow, and still a sound solid."""
    made = buck_of(bowl(40, 3, 50), 2.0, (0.0, 0.0, 1.0))
    low = 40 * math.cos(math.radians(50))  # where the bowl ends
    rim = 45.0 * math.sin(math.acos(low / 43))

    assert isinstance(made, Solid)
    assert made.sound
    assert max(made.size_mm[:2]) == pytest.approx(2 * rim, abs=0.5)
    high = 45.0 * (1 - low / 43)
    dome = math.pi * high**2 * (3 * 45 - high) / 3
    assert made.volume_mm3 == pytest.approx(math.pi * rim**2 * (high + FOOT_MM) - dome, rel=3e-2)


def test_what_goes_round_and_bulges_has_no_form() -> None:
    """The outside of half a pipe with its lower edges upright cannot be closed straight down."""
    told = buck_of(half_shell(31, 3.2, 100), 3.0, (0.0, 0.0, 1.0))

    assert isinstance(told, str)
    assert "would not come off" in told

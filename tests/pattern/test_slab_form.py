"""A shell with a waist has a form: slabs along the limb, made one."""

from __future__ import annotations

import math

import numpy as np
import pytest
from manifold3d import Manifold

from planner.mesh import Solid
from planner.pattern.buck import FOOT_MM, buck
from planner.pattern.skin_patch import skin_patch
from tests.pattern.shells import half_shell
from tests.shapes import solid_of

LONG_MM, RADIUS_MM, THICK_MM = 100.0, 40.0, 3.0


def waisted(share: float) -> Solid:
    """Return half a pipe whose radii shrink in its middle by a share, as a sine."""
    pipe = half_shell(RADIUS_MM, 3, LONG_MM, 60).manifold
    assert isinstance(pipe, Manifold)

    def warp(v: np.ndarray) -> np.ndarray:
        narrow = 1 - share * np.sin(np.pi * v[:, 0] / LONG_MM)
        return np.column_stack([v[:, 0], v[:, 1] * narrow, v[:, 2] * narrow])

    return solid_of(pipe.refine_to_length(4.0).warp_batch(warp))


def test_a_waist_is_kept() -> None:
    """Volume by slices, each half a circle less the padding and its foot: ∫ (π r² / 2 + 2 r h) dx, to 2 % (Cavalieri)."""
    skin = skin_patch(waisted(0.15), None)
    assert skin is not None
    made = buck(skin, THICK_MM, "buck")
    x = (np.arange(1000) + 0.5) / 1000 * LONG_MM
    r = RADIUS_MM * (1 - 0.15 * np.sin(np.pi * x / LONG_MM)) - THICK_MM

    assert isinstance(made, Solid)
    assert made.sound
    assert made.bodies_n == 1
    assert made.volume_mm3 == pytest.approx(float((math.pi * r**2 / 2 + 2 * r * FOOT_MM).mean()) * LONG_MM, rel=0.02)

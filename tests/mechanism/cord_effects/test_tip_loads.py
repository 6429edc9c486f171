"""What a load at the tip does to each copy is in balance about the joint."""

from __future__ import annotations

import numpy as np
import pytest

from planner.plan import Prepared


def test_the_jaws_moments_cancel_about_its_post(heron_ready: Prepared) -> None:
    """Cord, load and elastic turn the jaw about its bore by nothing but the pin's friction: statics, from the mesh's origin."""
    moving = heron_ready.movement
    assert moving is not None
    loads = moving.tip_loads(20.0)["jaw"]
    moments = np.array([np.cross(load.at_mm, load.force_n)[2] for load in loads])

    assert abs(moments.sum()) < 0.1 * np.abs(moments).sum()
    assert max(float(np.linalg.norm(load.force_n)) for load in loads) > 60.0


def test_a_tip_is_pushed_across_axis_and_arm(heron_ready: Prepared) -> None:
    """The whole load, square to the line from post to tip, and in the jaw's plane."""
    moving = heron_ready.movement
    assert moving is not None
    (load,) = moving.tips(20.0)["jaw"]

    assert np.linalg.norm(load.force_n) == pytest.approx(20.0)
    assert np.dot(load.force_n, load.at_mm) == pytest.approx(0.0, abs=0.1)

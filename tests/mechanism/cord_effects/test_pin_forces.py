"""Every pin of a finger on one cord is told under the pull that its hardest joint needs."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from planner.mechanism.cord_effects.pin_forces import pin_forces
from planner.mechanism.force.friction import Friction
from planner.mechanism.force.pull_range import pull_over
from tests.mechanism.force.finger import finger


def test_the_easier_joints_pins_take_the_hardest_joints_pull() -> None:
    """Drawn straight the base needs 84.4 N for 10 N across: each pin takes root(84.4² + 10²) = 85.0 N, and is told."""
    way: Any = SimpleNamespace(stops=(), cord=SimpleNamespace(name="pull"))
    pulled: list[Any] = [
        SimpleNamespace(way=way, joint=joint, leg=SimpleNamespace(joint=SimpleNamespace(pin=pin, parts=("", pin))))
        for joint, pin in zip(finger(), ("tip", "middle", "base"), strict=True)
    ]
    smooth = Friction()
    pulls = [pull_over(one.joint, 10.0, (smooth, smooth, smooth)) for one in pulled]

    found = pin_forces(pulled, pulls, 10.0, smooth)

    assert {one.hardware for one in found} == {"tip", "middle", "base"}
    forces_n = [float(np.linalg.norm(one.force_n)) for one in found]
    assert forces_n == pytest.approx([float(np.hypot(760.0 / 9.0, 10.0))] * 3, rel=1e-4)

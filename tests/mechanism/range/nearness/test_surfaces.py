"""How near two surfaces come is what manifold3d tells by cutting, whether they meet, lie apart or in each other."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest

from planner.mechanism import STILL, Frame
from planner.mechanism.range.nearness.surfaces import surface_gap_mm, surface_of
from tests.shapes import Manifold

BODIES = (
    Manifold.sphere(5, 20),
    Manifold.cube((10, 4, 3), True) - Manifold.cylinder(10, 1, 1, 16, True),
    Manifold.cylinder(10, 3, 1, 12, True) + Manifold.cube((2, 2, 20)).translate((8, 0, 0)),
    Manifold.sphere(8, 24) - Manifold.sphere(6, 24) + Manifold.sphere(1, 12),
)


def _thrown(dice: random.Random) -> Frame:
    """Return a frame turned anyhow (a quaternion of four normal numbers, Marsaglia 1972) and shifted."""
    q = np.array([dice.gauss(0, 1) for _ in range(4)])
    w, x, y, z = (float(value) for value in q / np.linalg.norm(q))
    axis = (x, y, z) if x or y or z else (0.0, 0.0, 1.0)
    turned = STILL.turned_about(axis, (0.0, 0.0, 0.0), 2.0 * math.degrees(math.acos(max(-1.0, min(1.0, w)))))
    far = dice.choice((1.0, 5.0, 9.0))
    return Frame(turn=turned.turn, shift_mm=np.array([dice.gauss(0, far) for _ in range(3)]))


def test_gaps_are_those_of_manifold3d() -> None:
    """Of 160 places of a ball, a bored block, a two-piece body and a shell with a ball in it (Manifold 3, MinGap)."""
    dice = random.Random(18)  # noqa: S311
    surfaces = [surface_of(body) for body in BODIES]
    kinds = set()
    for n in range(160):
        one, other, most = n % 4, n // 4 % 4, dice.choice((0.2, 1.6, 5.0))
        step = _thrown(dice)
        gap = surface_gap_mm(surfaces[one], surfaces[other], step, most)
        assert gap == pytest.approx(BODIES[one].min_gap(BODIES[other].transform(step.matrix()), most), abs=1e-9)
        kinds.add("meets" if gap == 0.0 else "far" if gap == most else "near")
    assert kinds == {"meets", "far", "near"}


def test_one_inside_the_other_meets_it() -> None:
    """A ball wholly inside a cube overlaps it, though their surfaces are 40 mm apart; in the cube's hollow it is free."""
    ball, block = surface_of(Manifold.sphere(1, 16)), Manifold.cube((90, 90, 90), True)
    hollow = block - Manifold.cube((82, 82, 82), True)

    assert surface_gap_mm(surface_of(block), ball, STILL, 5.0) == 0.0
    assert surface_gap_mm(ball, surface_of(block), STILL, 5.0) == 0.0
    assert surface_gap_mm(surface_of(hollow), ball, STILL, 50.0) == pytest.approx(40.0, abs=0.05)


@pytest.mark.parametrize("height", [0.0, 0.25])
def test_a_corner_over_a_face(height: float) -> None:
    """A cube stands on its corner over the middle of a large face: the gap is its height, by hand."""
    table = surface_of(Manifold.cube((40, 40, 2)).translate((-20, -20, -2)))
    corner = Manifold.cube((5, 5, 5)).rotate((45, 0, 0)).rotate((0, -math.degrees(math.atan(1 / math.sqrt(2))), 0))
    low = corner.bounding_box()[2]
    stood = surface_of(corner.translate((3.3, 1.7, height - low)))

    assert surface_gap_mm(table, stood, STILL, 2.0) == pytest.approx(height, abs=1e-9)

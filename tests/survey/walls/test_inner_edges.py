"""Walls seen from edges and corners that point inwards."""

from __future__ import annotations

import numpy as np
import pytest

from planner.mesh import Solid
from planner.survey.walls import inner_edges
from planner.survey.walls.inner_edges import edge_samples, from_inner_edges
from planner.survey.walls.solid_for_walls import BEND_RAD, shape_of
from tests.shapes import Manifold, cuboid, solid_of


def _grooved(left_mm: float) -> Manifold:
    """Return a plate of 30 x 20 x 6 with a groove of 60 degrees that leaves so much under its bottom line."""
    half = (8 - left_mm) * np.tan(np.radians(30.0))
    cut = np.array(
        [[15, y, left_mm] for y in (-1, 21)] + [[15 + side * half, y, 8] for side in (-1, 1) for y in (-1, 21)]
    )
    return Manifold.cube((30, 20, 6)) - Manifold.hull_points(cut)


@pytest.mark.parametrize("left_mm", [0.5, 0.8])
def test_under_a_groove_is_what_it_leaves(left_mm: float) -> None:
    """From the bottom line of a V the lower face is nearest, straight down."""
    pairs = from_inner_edges(shape_of(solid_of(_grooved(left_mm))))
    first = int(np.argmin(pairs.thickness_mm))

    assert pairs.thickness_mm[first] == pytest.approx(left_mm, rel=1e-4)
    assert pairs.here[first, [0, 2]] == pytest.approx([15.0, left_mm], abs=1e-4)
    assert pairs.there[first, 2] == pytest.approx(0.0, abs=1e-4)
    assert pairs.inner.all()


def test_under_a_drill_point_is_what_it_leaves() -> None:
    """A blind hole that ends in a cone 0.7 mm above the lower face."""
    cone = Manifold.cylinder(3.0, 0.0, 3.0, 32).translate((10, 10, 0.7))
    pairs = from_inner_edges(
        shape_of(solid_of(Manifold.cube((20, 20, 6)) - cone - Manifold.cylinder(5, 3, 3, 32).translate((10, 10, 3.7))))
    )

    assert pairs.thickness_mm.min() == pytest.approx(0.7, rel=1e-3)


def test_a_cuboid_has_no_inner_edges() -> None:
    """Nothing points inwards, so nothing is seen from there."""
    assert len(from_inner_edges(shape_of(cuboid(20, 10, 4)))) == 0


def test_of_many_inner_edges_the_sharpest_stay(monkeypatch: pytest.MonkeyPatch) -> None:
    """A groove over a plate whose lower side is rough all over: few samples of the rough, and all along the groove."""
    monkeypatch.setattr(inner_edges, "STEPS_MOST", 2000)
    n = 100
    x, y = np.meshgrid(np.linspace(0, 33, n), np.linspace(0, 33, n), indexing="ij")
    rough = np.random.default_rng(3).uniform(-0.1, 0.1, x.shape)
    groove = np.maximum(0.0, 2.0 - np.abs(x - 16.5))
    low, high = (np.stack([x, y, z], axis=-1).reshape(-1, 3) for z in (rough, 6.0 - groove))
    a = (np.arange(n - 1)[:, None] * n + np.arange(n - 1)).ravel()
    side = np.vstack([np.column_stack([a, a + n, a + n + 1]), np.column_stack([a, a + n + 1, a + 1])])
    faces = np.vstack([side + n * n, side[:, ::-1]])
    shape = shape_of(Solid(name="rough", vertices_mm=np.vstack([low, high]), faces=faces, sha256="rough"))
    points = edge_samples(shape)[0]
    bottom = np.abs(points[:, 2] - 4.167) < 0.02

    assert int((shape.edges.bend_rad > BEND_RAD).sum()) > 4 * 2000
    assert len(points) < 4 * 2000
    assert np.diff(np.sort(points[bottom, 1])).max() < 1.5

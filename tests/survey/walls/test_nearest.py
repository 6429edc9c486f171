"""The nearest point of a surface in wanted directions."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from planner.mesh import Solid
from planner.survey.walls import nearest as compiled
from planner.survey.walls.inner_edges import edge_samples
from planner.survey.walls.nearest import Wanted, cone, nearest
from planner.survey.walls.solid_for_walls import shape_of
from tests.shapes import ball, cuboid

UP = np.array([[0.0, 0.0, 1.0]])
IN_30_COS = float(np.cos(np.radians(30.0)))


def _below(solid: Solid, centre: list[float], top: list[float], within_mm: float) -> tuple[int, np.ndarray, float]:
    """Return what is nearest to a centre within 30 degrees of straight down from a place on top."""
    found = nearest(
        shape_of(solid).tree, np.array([centre]), np.array([top]), cone(UP, IN_30_COS), np.array([within_mm])
    )
    return int(found.face[0]), found.point_mm[0], float(found.distance_mm[0])


@pytest.mark.parametrize("z", [0.5, 2.0, 3.5])
def test_straight_through_a_plate_is_its_other_face(z: float) -> None:
    """From inside a plate of 20 x 20 x 4 the lower face is z away, though a side may be nearer."""
    face, point, distance = _below(cuboid(20, 20, 4), [2.0, 10.0, z], [2.0, 10.0, 4.0], 10.0)

    assert face >= 0
    assert point == pytest.approx([2.0, 10.0, 0.0])
    assert distance == pytest.approx(z)


def test_nothing_beyond_the_limit_is_found() -> None:
    """The lower face is 3 mm away: within 2.9 mm there is none."""
    face, _, distance = _below(cuboid(20, 20, 4), [10, 10, 3], [10, 10, 4], 2.9)

    assert face == -1
    assert np.isinf(distance)


def test_among_many_triangles_the_tree_finds_what_looking_at_all_finds() -> None:
    """On a ball of radius 10: from a centre 3 mm off the middle the nearest place below is 7 mm away (geometry)."""
    _, point, distance = _below(ball(20.0, 200), [0.0, 0.0, -3.0], [0.0, 0.0, 10.0], 20.0)

    assert distance == pytest.approx(7.0, abs=0.01)
    assert point == pytest.approx([0.0, 0.0, -10.0], abs=0.5)


def test_directions_of_some_points_are_theirs() -> None:
    """Points with one, two and no directions: rows 2 and 1 keep none and two, in that order."""
    wanted = Wanted(
        first=np.array([0, 1, 3, 3]),
        direction=np.arange(9.0).reshape(3, 3),
        most=np.array([0.1, 0.2, 0.3]),
        ahead=np.zeros((3, 3)),
    )
    some = wanted.of(np.array([2, 1]))

    assert some.first.tolist() == [0, 0, 2]
    assert some.most.tolist() == [0.2, 0.3]


def _bumpy(n: int) -> Solid:
    """Return a sheet of 10 x 10 mm that looks up, its n x n corners off by a tenth of their distance, as in a scan."""
    x, y = np.meshgrid(np.linspace(0, 10, n), np.linspace(0, 10, n), indexing="ij")
    z = np.random.default_rng(3).normal(0.0, 1.0 / n, x.shape)
    here = np.arange(n * n).reshape(n, n)
    a, b, c, d = (part.ravel() for part in (here[:-1, :-1], here[1:, :-1], here[1:, 1:], here[:-1, 1:]))
    faces = np.vstack([np.column_stack([a, b, c]), np.column_stack([a, c, d])])
    return Solid(name="sheet", vertices_mm=np.stack([x, y, z], axis=-1).reshape(-1, 3), faces=faces, sha256=f"{n}")


@pytest.mark.parametrize("n", [16, 48])
def test_corners_of_a_rough_surface_ask_a_few_triangles_however_many_are_near(
    n: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Within 5 mm there are 290 and 1,970 triangles, none in front: ten corners look at fewer than 40 each."""
    asked = []
    looked = compiled._may_end

    def counted(*given: Any) -> bool:
        asked.append(1)
        return bool(looked(*given))

    monkeypatch.setattr(compiled, "_may_end", counted)
    monkeypatch.setattr(compiled, "_nearest", compiled._nearest.py_func)
    shape = shape_of(_bumpy(n))
    starts, _, wanted, _ = edge_samples(shape)
    rows = np.arange(len(starts))[:: len(starts) // 9]

    found = nearest(shape.tree, starts[rows], starts[rows], wanted.of(rows), np.full(len(rows), 5.0))

    assert (found.face < 0).all()
    assert len(asked) < 40 * len(rows)

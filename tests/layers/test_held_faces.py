"""Faces that lie on support or bridge: areas known in closed form, and the estimate's own sum."""

from __future__ import annotations

import math

import numpy as np
import pytest
from numpy.typing import NDArray

from planner.job import Material, Printer, Settings
from planner.layers import FaceKind, estimate_part, held_faces
from planner.mesh import Solid
from tests.shapes import Manifold, cuboid, solid_of


def _areas(solid: Solid, kinds: NDArray[np.uint8]) -> list[float]:
    """Return the area of the faces of each kind."""
    corners = solid.vertices_mm[solid.faces]
    area = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1) / 2
    return [float(area[kinds == kind].sum()) for kind in FaceKind]


def _standing(body: Manifold) -> Solid:
    """Return a body with its box over the origin, as a posed part stands."""
    x0, y0, _, x1, y1, _ = body.bounding_box()
    return solid_of(body.translate((-(x0 + x1) / 2, -(y0 + y1) / 2, 0.0)))


def test_a_box_stands_free(standard: Settings) -> None:
    """Nothing hangs, so nothing is held and nothing bridges."""
    assert set(held_faces(cuboid(30, 20, 10), standard)) == {FaceKind.FREE}


def test_the_wings_of_a_table_are_held(standard: Settings, printer: Printer, petg: Material) -> None:
    """A plate of 40 x 40 on a post of 10 x 10: its underside, 1600 - 100 mm2, lies on support, and nothing else."""
    table = Manifold.cube((40, 40, 4)).translate((0, 0, 20)) + Manifold.cube((10, 10, 21)).translate((15, 15, 0))
    part = _standing(table)
    areas = _areas(part, held_faces(part, standard))
    told = estimate_part(part, settings=standard, printer=printer, material=petg)

    assert areas[FaceKind.HELD] == pytest.approx(1500.0, rel=1e-6)
    assert areas[FaceKind.PARTLY] == areas[FaceKind.BRIDGE] == 0.0
    assert areas[FaceKind.HELD] == pytest.approx(told.supported_mm2, rel=0.03)


@pytest.mark.parametrize(("lean_deg", "held"), [(30.0, False), (60.0, True)])
def test_a_slope_is_held_where_it_leans_too_far(standard: Settings, lean_deg: float, held: bool) -> None:
    """A wedge that leans 30 degrees from the vertical prints, one of 60 does not (the settings say 45)."""
    assert standard.self_supporting_deg.value == 45.0
    out = 20.0 * math.tan(math.radians(lean_deg))
    base, top = (
        np.array([[0, 0], [10, 0], [10, 20], [0, 20]]),
        np.array([[0, 0], [10 + out, 0], [10 + out, 20], [0, 20]]),
    )
    points = np.vstack([np.column_stack([base, np.zeros(4)]), np.column_stack([top, np.full(4, 20.0)])])
    part = _standing(Manifold.hull_points(points))
    slope = 20.0 * math.hypot(out, 20.0)

    assert _areas(part, held_faces(part, standard))[FaceKind.HELD] == pytest.approx(slope if held else 0.0, rel=1e-6)


def test_a_short_span_bridges(standard: Settings) -> None:
    """A lintel over a gap of 5 mm bridges: 5 x 20 mm2 of its underside; nothing is held."""
    gate = Manifold.cube((25, 20, 14)) - Manifold.cube((5, 22, 10)).translate((10, -1, -0.001))
    areas = _areas(part := _standing(gate), held_faces(part, standard))

    assert areas[FaceKind.BRIDGE] == pytest.approx(100.0, rel=0.02)
    assert areas[FaceKind.HELD] == 0.0

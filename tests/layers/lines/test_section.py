"""Sections: they integrate to the volume, and an unsound mesh says that they are guessed."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from planner.layers.heights import layer_middles_mm
from planner.layers.lines.section import rings_of, sections_of, shape_of, signed_area_mm2
from planner.mesh import Solid, posed
from tests.layers.conftest import DOWN, Estimated
from tests.shapes import Manifold, ball, cuboid, cylinder, solid_of


@pytest.mark.parametrize("shape", ["ball", "cone"])
def test_sections_integrate_to_the_volume_at_second_order(shape: str) -> None:
    """Mid-height sections are the midpoint rule: the error falls fourfold as layers halve (to 0.3 % at 0.2 mm)."""
    body = ball(30.0, 200) if shape == "ball" else solid_of(cylinder(30, 30, 200).warp(_cone))
    solid = posed(body, DOWN)
    errors = []
    for layer in (4.0, 2.0, 1.0, 0.2):
        tops = (np.arange(1, round(30 / layer) + 1) * layer).astype(np.float64)
        middles = layer_middles_mm(tops) * float(solid.bounds_mm[1, 2]) / float(tops[-1])
        sections, approximate = sections_of(solid, middles)
        assert not approximate
        found = sum(section.area() for section in sections) * float(solid.bounds_mm[1, 2]) / len(tops)
        errors.append(abs(found / solid.volume_mm3 - 1))

    assert errors[-1] < 3e-3
    assert errors[0] / errors[2] > 10.0


def _cone(point: tuple[float, float, float]) -> tuple[float, float, float]:
    """Narrow a cylinder toward its top."""
    x, y, z = point
    share = 1 - 0.9 * z / 30
    return x * share, y * share, z


def test_an_unsound_mesh_is_estimated_and_says_why(estimated: Estimated) -> None:
    """Open outlines are closed by guess, near the true volume, and the estimate says that it did."""
    box = cuboid(20, 20, 10)
    open_box = Solid(
        name="open",
        vertices_mm=box.vertices_mm.copy(),
        faces=box.faces[:-1].copy(),
        sha256="",
        faults=("open at 3 edges",),
    )
    estimate = estimated(open_box)

    assert "not sound" in estimate.approximate
    assert estimate.deposited_mm3 > 500.0


@pytest.mark.parametrize("holes", [0, 1, 3])
@pytest.mark.parametrize("apart", [False, True])
def test_a_shape_is_all_outlines_less_all_holes_to_the_last_digit(holes: int, *, apart: bool) -> None:
    """One outline or one hole alone is not united first: GEOS makes the same of it, corner by corner."""
    outline = [Manifold.cube((40, 20, 2)).rotate((0, 0, 13.7)), *([cylinder(9, 2, 40).translate((90, 0, 0))] * apart)]
    body = sum(outline, Manifold())
    for n in range(holes):
        body -= cylinder(4, 6, 30 + n).translate((9.0 * n + 6.0, 2.5 * n + 9.0, -1))
    section = body.slice(1.0)
    rings = [(signed_area_mm2(ring), shapely.Polygon(ring)) for ring in rings_of(section)]
    whole, holed = (shapely.union_all([flat for area, flat in rings if (area > 0) is out]) for out in (True, False))

    assert len(rings) == len(outline) + holes
    assert shape_of(section).wkb == whole.difference(holed).wkb
    assert shape_of(body.slice(5.0)).is_empty

"""What is left beside a bore, by distances that were drawn."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.bores import bores_of
from planner.survey.bores.edge_wall import with_edges
from planner.survey.walls.solid_for_walls import Shape, shape_of
from tests.shapes import Manifold, ball, bored_plate, cylinder, solid_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@pytest.mark.parametrize("left_mm", [0.4, 1.0, 2.5])
def test_between_a_bore_and_a_side_is_what_was_drawn(left_mm: float) -> None:
    """A bore of 5 mm whose corners come so near to the left side; the place is half-way between both."""
    plate = bored_plate(40, 30, 6, [(2.5 + left_mm, 15, 5.0, 64)])
    (bore,) = with_edges(shape_of(plate), bores_of(plate)[0])

    assert bore.edge_wall_mm == pytest.approx(left_mm, abs=0.01)
    assert bore.edge_at_mm is not None
    assert bore.edge_at_mm[:2] == pytest.approx((left_mm / 2, 15.0), abs=0.3)


def test_two_bores_share_the_web_between_them() -> None:
    """Bores of 5 and 4 mm, 6 mm apart from axis to axis: 6 - 2.5 - 2 = 1.5 mm for both."""
    plate = bored_plate(60, 40, 6, [(25, 20, 5.0, 64), (31, 20, 4.0, 64)])

    assert [bore.edge_wall_mm for bore in with_edges(shape_of(plate), bores_of(plate)[0])] == pytest.approx(
        [1.5, 1.5], abs=0.01
    )


def test_a_lip_beside_a_bore_is_no_side_of_a_wall() -> None:
    """A rim 0.1 mm high round a bore ends 0.6 mm from it: what counts is the plate, 9 mm, as if there were no rim.

    From 0.5 mm on, higher than two layers, the same rim is a wall of 0.6 mm.
    """
    found = []
    for high in (0.1, 0.5):
        plate = Manifold.cube((23, 23, 6)) + cylinder(6.2, high + 1, 96).translate((11.5, 11.5, 5))
        solid = solid_of(plate - cylinder(5, 20, 96).translate((11.5, 11.5, -5)))
        (bore,) = with_edges(shape_of(solid), bores_of(solid)[0])
        found.append(bore.edge_wall_mm)

    assert found == pytest.approx([9.0, 0.6], abs=0.03)


def test_a_counterbore_is_no_side_of_the_web_below_it() -> None:
    """A bore of 5 mm below a counterbore of 10 mm, 12 mm from the next side: the matter beside it reaches that side."""
    body = Manifold.cube((29, 29, 8)) - cylinder(5, 20, 64).translate((14.5, 14.5, -5))
    solid = solid_of(body - cylinder(10, 20, 64).translate((14.5, 14.5, 4)))
    bore = min(with_edges(shape_of(solid), bores_of(solid)[0]), key=lambda b: b.drawn_diameter_mm)

    assert bore.edge_wall_mm == pytest.approx(12.0, abs=0.05)


def test_a_bore_is_measured_on_what_lies_near_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """A countersunk plate beside a ball of 40,000 triangles: no more is looked at than stands about the bore.

    Its cone is 8 mm wide as drawn, and 10 - 2.5 mm stand beside it.
    """
    sunk = Manifold.cylinder(1.5, 2.5, 4.0, 96).translate((10, 15, 4.5)) + cylinder(5, 20, 96).translate((10, 15, -5))
    plate, fine = solid_of(Manifold.cube((40, 30, 6)) - sunk), ball(60.0, 284)
    solid = Solid(
        name="both",
        vertices_mm=np.vstack([plate.vertices_mm, fine.vertices_mm + 100.0]),
        faces=np.vstack([plate.faces, fine.faces + len(plate.vertices_mm)]),
        sha256="both",
    )
    seen: list[int] = []
    whole = Shape.reached

    def counted(shape: Shape, low: Floats, high: Floats) -> Ints:
        found = whole(shape, low, high)
        seen.append(len(found))
        return found

    monkeypatch.setattr(Shape, "reached", counted)
    (bore,) = bores_of(solid)[0]

    assert bore.countersink_mm == pytest.approx(8.0, abs=0.02)
    assert bore.edge_wall_mm == pytest.approx(7.5, abs=0.01)
    assert seen
    assert max(seen) <= len(plate.faces)


@pytest.mark.parametrize(("z_mm", "web_mm"), [(2.5, 0.5), (3.0, 1.0), (3.5, 0.8), (4.0, 0.3)])
def test_the_wedge_at_a_mouth_in_a_round_end_is_no_web(z_mm: float, web_mm: float) -> None:
    """A knuckle of radius 6 about a pin of 3.4: a channel of 2 mm across it leaves z - 2 below and 4.3 - z to the pin.

    Below, the matter thins out from there to both mouths; to the pin it is thinnest in the middle.
    """
    eye = cylinder(12, 13, 96).translate((0, 0, -6.5)) - cylinder(3.4, 30, 96).translate((0, 0, -15))
    channel = cylinder(2, 80, 48).rotate((0, 90, 0)).translate((-40, z_mm - 7, 0))
    knuckle = solid_of(eye - channel)
    found = next(one for one in with_edges(shape_of(knuckle), bores_of(knuckle)[0]) if abs(one.axis[0]) > 0.9)

    assert found.edge_wall_mm == pytest.approx(web_mm, abs=0.02)


def test_a_step_in_a_channel_that_crosses_a_bore_is_no_side_of_a_wall() -> None:
    """Cut again, a channel of 2.64 mm is 0.01 mm narrower for 0.33 mm beside the bore: the matter goes on past it.

    By hand: from the bore's wall to the side of the block 15 - 1.73 = 13.27 mm.
    """
    through = cylinder(2.64, 80, 96).translate((0, 0, -40))
    narrow = cylinder(2.63, 4.12, 96).translate((0, 0, -2.06))
    wide = through - Manifold.cube((10, 10, 4.12), True)
    channel = (wide + narrow).rotate((0, 90, 0)).translate((0, 0, 0.2))
    solid = solid_of(Manifold.cube((30, 30, 8), True) - channel - cylinder(3.46, 40, 96).translate((0, 0, -20)))
    (bore,) = [one for one in with_edges(shape_of(solid), bores_of(solid)[0]) if one.drawn_diameter_mm > 3]

    assert bore.edge_wall_mm == pytest.approx(13.27, abs=0.02)

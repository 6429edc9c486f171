"""What lies at either side of a wall, in words."""

from __future__ import annotations

import numpy as np

from planner.survey.bores.bores import bores_of
from planner.survey.walls.sides import beside, between, bore_of
from planner.survey.walls.solid_for_walls import Pairs, shape_of
from tests.shapes import bored_plate

PLATE = bored_plate(40, 30, 6, [(8, 15, 5.0, 64), (30, 15, 4.0, 64)])
BORES = bores_of(PLATE)[0]


def _pair(here: list[float], there: list[float], toward: list[float]) -> Pairs:
    """Return one pair between opposed sides."""
    way = np.array([toward])
    return Pairs(
        here=np.array([here]),
        there=np.array([there]),
        toward=way,
        opposite=-way,
        thickness_mm=np.ones(1),
        area_mm2=np.ones(1),
        face=np.zeros(1, np.int64),
        inner=np.zeros(1, dtype=bool),
    )


def test_sides_are_named_as_drawn() -> None:
    """z is up, +x right, +y back; a side on a bore's wall is that bore."""
    shape = shape_of(PLATE)
    first = min(BORES, key=lambda bore: bore.centre_mm[0])
    through = between(shape, _pair([20, 15, 6], [20, 15, 0], [0, 0, 1.0]), BORES)
    web = between(shape, _pair([5.5, 15, 3], [0, 15, 3], [1.0, 0, 0]), BORES)

    assert through == "the upper face and the lower face"
    assert web == f"bore {first.id} and the left face"


def test_points_on_a_bores_wall_are_its_own() -> None:
    """On the wall of either bore, in its middle, and on no bore at all."""
    points = np.array([[8 + 2.5, 15, 3], [30 - 2.0, 15, 3], [8.0, 15, 3], [20.0, 15, 6]])
    owner = bore_of(points, BORES)

    assert [BORES[k].centre_mm[0] if k >= 0 else None for k in owner] == [
        BORES[owner[0]].centre_mm[0],
        BORES[owner[1]].centre_mm[0],
        None,
        None,
    ]
    assert abs(BORES[owner[0]].centre_mm[0] - 8) < 0.01
    assert abs(BORES[owner[1]].centre_mm[0] - 30) < 0.01


def test_a_place_lies_beside_the_bores_that_are_near() -> None:
    """3 mm from the left bore's wall: beside it within 3.1 mm, beside none within 2.9."""
    place = np.array([[8 + 2.5 + 3.0, 15.0, 3.0]])

    assert [len(beside(place, BORES, within)) for within in (2.9, 3.1)] == [0, 1]


def test_the_rim_of_a_bore_is_its_own() -> None:
    """At the far end of the wall, a hundredth outside of the circle and beyond the mouth: no more slack than that."""
    bore = min(BORES, key=lambda bore: bore.centre_mm[0])
    rim = np.array(
        [[8.0 + 2.51, 15.0, 6.01], [8.0 - 2.51, 15.0, -0.01], [8.0 + 2.7, 15.0, 6.0], [8.0 + 2.5, 15.0, 6.3]]
    )

    assert bore_of(rim, (bore,)).tolist() == [0, 0, -1, -1]

"""Growing a round: to its whole wall and no farther, and never over more of a mesh than there is in it."""

from __future__ import annotations

import numpy as np
import pytest

from planner.mesh import Solid
from planner.survey.bores import edge_wall, round_search
from planner.survey.bores.bores import bores_of
from planner.survey.bores.facets import distinct, facets_of
from planner.survey.bores.fitted_circles import EXACT, Round, fitted
from planner.survey.bores.grown_round import Ints, Surface, grown, surface_of
from planner.survey.walls.triangle_tree import Floats, Tree, tree_of
from tests.shapes import bored_plate
from tests.survey.drawn.curved_meshes import torus

N = 24


def test_a_round_grows_to_its_whole_wall_and_no_farther() -> None:
    """From one triangle of a bore of 24 facets: its 48 triangles, not those of its twin; and all stay free."""
    plate = bored_plate(30, 15, 6, [(7.5, 7.5, 5.0, N), (22.5, 7.5, 5.0, N)])
    facets = facets_of(plate)
    middle = plate.corners_mm.mean(axis=1)
    wall = np.flatnonzero((np.abs(facets.normals[:, 2]) < 0.5) & (np.hypot(*(middle[:, :2] - 7.5).T) < 2.6))
    found = fitted(plate.vertices_mm[np.unique(plate.faces[wall])], np.array([0.0, 0.0, 1.0]), EXACT)
    free = np.ones(len(plate.faces), dtype=bool)
    assert found is not None

    assert grown(surface_of(plate, facets), free, found, wall[:1]).tolist() == wall.tolist()
    assert len(wall) == 2 * N
    assert free.all()


def test_taken_triangles_stop_the_growing() -> None:
    """With one facet's triangles taken on either side, only those between are reached: a wall in a ring, cut twice."""
    plate = bored_plate(15, 15, 6, [(7.5, 7.5, 5.0, N)])
    facets = facets_of(plate)
    middle = plate.corners_mm.mean(axis=1)[:, :2] - 7.5
    wall = np.flatnonzero((np.abs(facets.normals[:, 2]) < 0.5) & (np.hypot(*middle.T) < 2.6))
    turn = np.floor(np.degrees(np.arctan2(middle[wall, 1], middle[wall, 0])) % 360.0 / (360.0 / N)).astype(int)
    found = fitted(plate.vertices_mm[np.unique(plate.faces[wall])], np.array([0.0, 0.0, 1.0]), EXACT)
    free = np.ones(len(plate.faces), dtype=bool)
    free[wall[np.isin(turn, (2, 8))]] = False
    assert found is not None

    reached = grown(surface_of(plate, facets), free, found, wall[turn == 5][:1])

    assert sorted(reached.tolist()) == sorted(wall[(turn > 2) & (turn < 8)].tolist())


def test_a_torus_is_grown_over_no_more_than_a_few_times(monkeypatch: pytest.MonkeyPatch) -> None:
    """Four times the triangles: all rounds together reach at most three times as many triangles as there are."""
    reached = []

    def counted(surface: Surface, free: np.ndarray, found: Round, faces: Ints) -> Ints:
        taken = grown(surface, free, found, faces)
        reached.append(len(taken))
        return taken

    monkeypatch.setattr(round_search, "grown", counted)
    for triangles_n in (8_000, 32_000):
        reached.clear()
        solid = torus(triangles_n)

        assert bores_of(solid) == ((), ())
        assert sum(reached) < 3 * len(solid.faces), triangles_n


def test_beside_a_bore_a_plates_own_faces_are_not_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of a plate with 24 bores of 32 facets each bore asks only the walls near it, less than a twentieth of all triangles."""
    asked = []

    def counted(corners: Floats, normals: Floats, straight_cos: Floats, chain: Floats) -> Tree:
        asked.append(len(corners))
        return tree_of(corners, normals, straight_cos, chain)

    monkeypatch.setattr(edge_wall, "tree_of", counted)
    places = [(6.0 * x + 8.0, 6.0 * y + 8.0, 2.0, 32) for x in range(6) for y in range(4)]
    plate = bored_plate(46, 34, 0.8, places)
    bores, _ = bores_of(plate)

    assert len(bores) == 24
    assert asked
    assert max(asked) < len(plate.faces) / 20


def test_a_triangle_without_neighbours_is_surveyed_too() -> None:
    """A lone triangle has no pairs to grow over: no bore, and no word about it."""
    alone = Solid(name="alone", vertices_mm=np.eye(3), faces=np.array([[0, 1, 2]]), sha256="alone", faults=("open",))

    assert bores_of(alone) == ((), ())


@pytest.mark.parametrize("many", [3, 5000])
def test_different_numbers_are_found_among_few_and_many(many: int) -> None:
    """As numpy's unique says, both where they are sorted and where they are marked; what is below 0 is left out."""
    numbers = np.random.default_rng(many).integers(-1, 1000, (many, 3))

    assert distinct(numbers, 1000).tolist() == [n for n in np.unique(numbers).tolist() if n >= 0]

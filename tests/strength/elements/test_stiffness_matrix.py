"""The patch test: an even strain gives exactly its stress, for layers at any angle."""

from __future__ import annotations

import numpy as np
import pytest

from planner.strength.elements.displacements import displaced, held_lightly
from planner.strength.elements.stiffness import PAIRS, Moduli, stiffness_mpa
from planner.strength.elements.stiffness_matrix import assembled, stresses_mpa
from planner.strength.elements.tetrahedra import Tetrahedra, quadratic, tetrahedra_of
from tests.shapes import bored_plate, cuboid

STRAIN = 1e-3 * np.array([[1.0, 0.15, 0.35], [0.15, -0.5, 0.2], [0.35, 0.2, 0.7]])


@pytest.mark.parametrize("normal", [(0.0, 0.0, 1.0), (0.3, 0.5, 0.8), (-1.0, 0.2, 0.1)])
def test_an_even_strain_is_exact_with_layers_at_any_angle(normal: tuple[float, float, float]) -> None:
    """Irons' patch test (Zienkiewicz and Taylor, from memory), orthotropic and turned, on the mesh of a bored plate."""
    cells = _bored()
    stiffness, whole = (
        stiffness_mpa(Moduli(along_mpa=1900.0, across_mpa=900.0, poisson_ratio=0.38), normal),
        _ones(cells),
    )
    matrix = assembled(cells, stiffness, whole)
    force = (matrix @ (cells.nodes_mm @ STRAIN).ravel()).reshape(-1, 3)
    found = stresses_mpa(cells, stiffness, whole, displaced(matrix, cells, force, held_lightly(cells.nodes_mm)))
    wanted = stiffness @ np.array([STRAIN[i, j] * (1.0 if i == j else 2.0) for i, j in PAIRS])

    assert np.abs(found - wanted).max() < 1e-4 * np.abs(wanted).max()


def test_rigid_motions_cost_nothing_and_the_matrix_is_symmetric() -> None:
    """A shift and a turn give no force."""
    cells = quadratic(np.array([[0.0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]]), np.array([[0, 1, 2, 3]]))
    matrix = assembled(
        cells, stiffness_mpa(Moduli(along_mpa=1.0, across_mpa=1.0, poisson_ratio=0.3), (0.0, 0.0, 1.0)), _ones(cells)
    )
    motion = np.cross([1.0, 2.0, 3.0], cells.nodes_mm) + np.array([4.0, 5.0, 6.0])

    assert np.abs(matrix @ motion.ravel()).max() < 1e-12
    assert abs(matrix - matrix.T).max() < 1e-12


def _bored() -> Tetrahedra:
    """Return few tetrahedra of a bored plate."""
    return tetrahedra_of(bored_plate(20.0, 20.0, 6.0, [(10.0, 10.0, 8.0, 24)]), 6.0)


def _ones(cells: Tetrahedra) -> np.ndarray:
    """Return a share of one for every tetrahedron."""
    return np.ones((len(cells.cells), 4))


def test_many_unknowns_are_solved_as_few_are(monkeypatch: pytest.MonkeyPatch) -> None:
    """Multigrid and the direct way give the same shift."""
    cells = tetrahedra_of(cuboid(20.0, 6.0, 6.0), 4.0)
    matrix = assembled(
        cells,
        stiffness_mpa(Moduli(along_mpa=1000.0, across_mpa=800.0, poisson_ratio=0.3), (0.0, 0.0, 1.0)),
        _ones(cells),
    )
    force = (matrix @ (cells.nodes_mm @ STRAIN).ravel()).reshape(-1, 3)
    shifts = []
    for most_n in (10**6, 0):
        monkeypatch.setattr("planner.strength.elements.displacements.DIRECT_N", most_n)
        shifts.append(displaced(matrix, cells, force, held_lightly(cells.nodes_mm)))

    assert shifts[1] == pytest.approx(shifts[0], abs=1e-5)

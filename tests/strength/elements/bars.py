"""Solids under loads of textbooks, solved once for the tests of elements."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mesh import Solid
from planner.strength.elements.displacements import displaced, held_lightly
from planner.strength.elements.nodal_forces import Press, pressed
from planner.strength.elements.stiffness import Moduli, stiffness_mpa
from planner.strength.elements.stiffness_matrix import POINTS, assembled, stresses_mpa
from planner.strength.elements.tetrahedra import Tetrahedra, tetrahedra_of

ALIKE = Moduli(along_mpa=2000.0, across_mpa=2000.0, poisson_ratio=0.3)
Floats = NDArray[np.float64]


def stressed(
    solid: Solid,
    loads: Sequence[Press] | Floats,
    edge_mm: float,
    *,
    finer: Sequence[tuple[Vec3, float]] = (),
    points: Floats = POINTS,
    cells: Tetrahedra | None = None,
) -> tuple[Floats, Floats, Floats]:
    """Return places (n, 3), their six stresses (n, 6) and the shift of nodes, of a solid alike in all directions."""
    cells = cells or tetrahedra_of(solid, edge_mm, finer)
    stiffness, whole = stiffness_mpa(ALIKE, (0.0, 0.0, 1.0)), np.ones((len(cells.cells), 4))
    force = loads if isinstance(loads, np.ndarray) else pressed(cells, loads)[0]
    shift = displaced(assembled(cells, stiffness, whole), cells, force, held_lightly(cells.nodes_mm))
    stress = stresses_mpa(cells, stiffness, np.ones((len(cells.cells), len(points))), shift, points)
    return (points @ cells.corners_mm).reshape(-1, 3), stress.reshape(-1, 6), shift

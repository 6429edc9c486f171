"""Tetrahedra of a sound solid, by a mesher that keeps edges and gives the same mesh for the same input.

Chosen by measurement on 16 parts of the sample device: the one for rough surfaces (fTetWild, MPL-2.0) meshed the jaw
each time anew, with one thread too; Netgen (LGPL-2.1, loaded as a wheel of its own) gave the same mesh in every run, in
a fifth of the time, volumes within 0.7 % at 2 mm but for the smallest round parts.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mesh import Solid, write_stl

try:
    from netgen import meshing, stl

    meshing.SetMessageImportance(0)
except ImportError:  # no wheel for this platform
    meshing = stl = None

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
EDGES = ((0, 1), (0, 2), (0, 3), (1, 2), (1, 3), (2, 3))
"""Corners of a tetrahedron's edges; nodes 4 to 9 lie at their middles."""
FLAT_SHARE = 1e-3
"""A tetrahedron is too flat under this share of a regular one's volume over its edges cubed; no source."""
VOLUME_SHARE = 0.02
"""So far a mesh's volume may differ from the solid's; no source."""


class UnmeshedError(Exception):
    """A solid of which no usable tetrahedra could be made; what is wrong stands in the text."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class Tetrahedra:
    """Quadratic tetrahedra: nodes (n, 3), and ten nodes each, corners first."""

    nodes_mm: Floats
    cells: Ints

    @property
    def corners_mm(self) -> Floats:
        """Corners of every tetrahedron, (m, 4, 3)."""
        return np.asarray(self.nodes_mm[self.cells[:, :4]])

    @property
    def volumes_mm3(self) -> Floats:
        """Volume of each."""
        corners = self.corners_mm
        return np.asarray(np.abs(np.linalg.det(corners[:, 1:] - corners[:, :1])) / 6.0)


def quadratic(points_mm: Floats, corners: Ints) -> Tetrahedra:
    """Return tetrahedra with a node at the middle of every edge; those that are inside out are turned."""
    cells = np.array(corners)
    inside_out = np.linalg.det(points_mm[cells[:, 1:]] - points_mm[cells[:, :1]]) < 0.0
    cells[inside_out] = cells[inside_out][:, [1, 0, 2, 3]]
    pairs = np.sort(cells[:, EDGES].reshape(-1, 2), axis=1)
    edges, which = np.unique(pairs, axis=0, return_inverse=True)
    nodes = np.concatenate([points_mm, points_mm[edges].mean(axis=1)])
    return Tetrahedra(nodes_mm=nodes, cells=np.hstack([cells, len(points_mm) + which.reshape(-1, 6)]))


def tetrahedra_of(solid: Solid, edge_mm: float, finer: Sequence[tuple[Vec3, float]] = ()) -> Tetrahedra:
    """Return tetrahedra of a sound solid with edges of about ``edge_mm``, and shorter ones at places of ``finer``.

    Raises
    ------
    UnmeshedError
        The solid is not sound, the mesher refused it, or the mesh has flat tetrahedra or another volume.
    """
    if meshing is None:
        raise UnmeshedError("the mesher for tetrahedra has no wheel for this platform")
    if not solid.sound:
        raise UnmeshedError(f"{solid.name} is not sound: {solid.faults[0]}")
    wanted = meshing.MeshingParameters(maxh=edge_mm)
    for at_mm, short_mm in finer:
        wanted.RestrictH(*at_mm, h=short_mm)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "solid.stl"
        write_stl(path, [solid])
        try:
            with _unheard():
                mesh = stl.STLGeometry(str(path)).GenerateMesh(wanted)
        except (RuntimeError, ValueError, meshing.NgException) as fault:
            raise UnmeshedError(f"{solid.name}: the mesher gave up ({fault})") from fault
    # Copies: the mesher's arrays end with its mesh.
    points = np.array(mesh.Coordinates(), copy=True)
    corners = mesh.Elements3D().NumPy()["nodes"][:, :4].astype(np.int64) - 1
    used, corners = np.unique(corners, return_inverse=True)
    if not len(used):
        raise UnmeshedError(f"{solid.name}: the mesher made no tetrahedra")
    found = quadratic(points[used], corners.reshape(-1, 4))
    _refuse_bad(solid, found)
    return found


@contextmanager
def _unheard() -> Iterator[None]:
    """Send the mesher's own remarks to standard error: standard output may be JSON."""
    kept = os.dup(1)
    os.dup2(2, 1)
    try:
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)


def _refuse_bad(solid: Solid, found: Tetrahedra) -> None:
    """Refuse flat tetrahedra, and a mesh of another volume than the solid."""
    corners = found.corners_mm
    lengths = np.stack([np.linalg.norm(corners[:, a] - corners[:, b], axis=1) for a, b in EDGES])
    shape = 6.0 * np.sqrt(2.0) * found.volumes_mm3 / np.sqrt((lengths**2).mean(axis=0)) ** 3
    if shape.min() < FLAT_SHARE:
        raise UnmeshedError(f"{solid.name}: {int((shape < FLAT_SHARE).sum())} tetrahedra are flat")
    share = abs(found.volumes_mm3.sum() / solid.volume_mm3 - 1.0)
    if share > VOLUME_SHARE:
        raise UnmeshedError(f"{solid.name}: the tetrahedra's volume is off by {100.0 * share:.1f} %")

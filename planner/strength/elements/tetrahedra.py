"""Tetrahedra of a sound solid, by a mesher that keeps edges and gives the same mesh for the same input.

Chosen by measurement on 16 parts of the sample device: the one for rough surfaces (fTetWild, MPL-2.0) meshed the jaw
each time anew, with one thread too; Netgen (LGPL-2.1, a wheel of its own, run as a program of its own) gave the same
mesh in every run, in a fifth of the time, volumes within 0.7 % at 2 mm but for the smallest round parts.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mesh import Solid, write_stl
from planner.strength.elements import mesher_alone

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
EDGES = ((0, 1), (0, 2), (0, 3), (1, 2), (1, 3), (2, 3))
"""Corners of a tetrahedron's edges; nodes 4 to 9 lie at their middles."""
FLAT_SHARE = 1e-6
"""A tetrahedron is too flat under this share of a regular one's volume over its edges cubed; no source. Single ones of
a thousandth are borne: they hold little volume, so that they weigh little in what is averaged."""
VOLUME_SHARE = 0.02
"""So far a mesh's volume may differ from the solid's; no source."""
TRIES = ((0.005, 1.0), (0.03, 0.7), (0.005, 0.7), (0.0, 1.0), (0.03, 0.5), (0.005, 0.4))
"""What is tried in turn: how far triangles may be merged in mm, far under a line's width, and the edge's share."""
SIDE_UNKNOWNS_N = 6
"""A closed surface of n triangles has about n / 2 corners and 3 n / 2 edges, so 6 n unknowns on it alone (Euler)."""
HANGS_S = 1200.0
"""A mesher that has not ended by then hangs; what it may do is bounded by counted triangles, not by this."""


class UnmeshedError(Exception):
    """A solid of which no usable tetrahedra could be made; what is wrong stands in the text."""


class EndedError(UnmeshedError):
    """A solid with which trying otherwise does not help."""


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


def tetrahedra_of(
    solid: Solid, edge_mm: float, finer: Sequence[tuple[Vec3, float]] = (), most_n: int | None = None
) -> Tetrahedra:
    """Return tetrahedra of a sound solid with edges of about ``edge_mm``, and shorter ones at places of ``finer``.

    Slivers of the surface stop the mesher on some parts: they are merged first, and other sizes are tried.

    Raises
    ------
    UnmeshedError
        The solid is not sound, or every try was refused or gave flat tetrahedra or another volume; of these an
        :class:`EndedError` where they have more than ``most_n`` unknowns, three a node.
    """
    if not solid.sound:
        raise UnmeshedError(f"{solid.name} is not sound: {solid.faults[0]}")
    refused = ""
    for merged_mm, share in TRIES:
        try:
            found = _tried(solid, merged_mm, share * edge_mm, finer, most_n)
            break
        except EndedError:
            raise
        except UnmeshedError as fault:
            refused = str(fault)
    else:
        raise UnmeshedError(f"{refused}; {len(TRIES)} tries")
    if most_n is not None and 3 * len(found.nodes_mm) > most_n:
        raise _too_many(solid, most_n)
    return found


def _too_many(solid: Solid, most_n: int) -> EndedError:
    """Return what is said where tetrahedra would be more than may be solved."""
    return EndedError(f"{solid.name}: its surface is too fine for the {most_n} unknowns that may be solved")


def _tried(
    solid: Solid, merged_mm: float, edge_mm: float, finer: Sequence[tuple[Vec3, float]], most_n: int | None
) -> Tetrahedra:
    """Return the tetrahedra of one try."""
    most_sides_n = sys.maxsize if most_n is None else most_n // SIDE_UNKNOWNS_N
    places = np.array([(*at_mm, short_mm) for at_mm, short_mm in finer]).reshape(-1, 4)
    with tempfile.TemporaryDirectory() as folder:
        surface, asked, out = (Path(folder) / name for name in ("surface.stl", "places.npy", "tetrahedra.npz"))
        write_stl(surface, [_merged(solid, merged_mm)])
        np.save(asked, places)
        program = [sys.executable, "-P", mesher_alone.__file__]
        words = [*program, str(surface), str(out), repr(float(edge_mm)), str(asked), str(most_sides_n)]
        try:
            ended = subprocess.run(words, capture_output=True, timeout=HANGS_S, check=False).returncode  # noqa: S603  our own program
        except subprocess.TimeoutExpired as fault:
            raise EndedError(f"{solid.name}: the mesher did not end") from fault
        if ended == mesher_alone.NO_WHEEL:
            raise EndedError("the mesher for tetrahedra has no wheel for this platform")
        if ended == mesher_alone.TOO_MANY and most_n is not None:
            raise _too_many(solid, most_n)
        if ended == mesher_alone.EMPTY:
            raise UnmeshedError(f"{solid.name}: the mesher made no tetrahedra")
        if ended:
            raise UnmeshedError(f"{solid.name}: the mesher gave up")
        with np.load(out) as mesh:
            points, corners = mesh["nodes_mm"], mesh["corners"]
    used, corners = np.unique(corners, return_inverse=True)
    found = quadratic(points[used], corners.reshape(-1, 4))
    _refuse_bad(solid, found)
    return found


def _merged(solid: Solid, merged_mm: float) -> Solid:
    """Return a solid with triangles merged where its surface moves by no more than so much."""
    if not merged_mm or solid.manifold is None:
        return solid
    mesh = solid.manifold.simplify(merged_mm).to_mesh()
    vertices, faces = np.asarray(mesh.vert_properties, dtype=float)[:, :3], np.asarray(mesh.tri_verts, dtype=np.int64)
    return replace(solid, vertices_mm=vertices, faces=faces)


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

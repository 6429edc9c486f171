"""The mesher, run as a program of its own: on some surfaces it ends the whole process, and it writes to both outputs.

``python mesher_alone.py SURFACE.stl OUT.npz EDGE_MM PLACES.npy MOST_N``; places are rows of x, y, z and the edge wanted
there; with more than ``MOST_N`` triangles on its surface the inside is not meshed.
It imports nothing of the project, so that it starts in a moment.
"""

from __future__ import annotations

import sys

import numpy as np

NO_WHEEL, EMPTY, TOO_MANY = 3, 4, 5
"""Exit codes: the mesher cannot be loaded on this platform, made no tetrahedra, or would make too many."""
THREADS_N = 1
"""More of them wait for each other, 0.7 to 1.9 s of processor time a mesh, and give the same bytes: five parts of the
sample device and a cuboid at three sizes, 250 to 88 000 tetrahedra, two busy cores, 2026."""
INSIDE = 5
"""The mesher's number of the step that fills a surface; its own list of names has the next one alone."""


def main(surface: str, out: str, edge_mm: str, places: str, most_n: str) -> int:
    """Mesh a surface, and write nodes and tetrahedra."""
    try:
        from netgen import meshing, stl  # noqa: PLC0415  whoever starts this program reads its exit code first
    except ImportError:
        return NO_WHEEL
    meshing.SetMessageImportance(0)
    wanted = meshing.MeshingParameters(maxh=float(edge_mm), nthreads=THREADS_N)
    for x, y, z, short_mm in np.load(places):
        wanted.RestrictH(x, y, z, h=short_mm)
    shape = stl.STLGeometry(surface)
    mesh = shape.GenerateMesh(wanted, perfstepsend=meshing.MeshingStep.MESHSURFACE)
    if len(mesh.Elements2D()) > int(most_n):
        return TOO_MANY
    mesh = shape.GenerateMesh(wanted, mesh, perfstepsstart=meshing.MeshingStep(INSIDE))
    corners = mesh.Elements3D().NumPy()["nodes"][:, :4].astype(np.int64) - 1
    if not len(corners):
        return EMPTY
    np.savez(out, nodes_mm=np.array(mesh.Coordinates()), corners=corners)
    return 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))

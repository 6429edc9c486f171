"""The mesher, run as a program of its own: on some surfaces it ends the whole process, and it writes to both outputs.

``python mesher_alone.py SURFACE.stl OUT.npz EDGE_MM PLACES.npy``; places are rows of x, y, z and the edge wanted there.
It imports nothing of the project, so that it starts in a moment.
"""

from __future__ import annotations

import sys

import numpy as np

NO_WHEEL = 3
"""Exit code where the mesher cannot be loaded on this platform."""


def main(surface: str, out: str, edge_mm: str, places: str) -> int:
    """Mesh a surface, and write nodes and tetrahedra."""
    try:
        from netgen import meshing, stl  # noqa: PLC0415  whoever starts this program reads its exit code first
    except ImportError:
        return NO_WHEEL
    meshing.SetMessageImportance(0)
    wanted = meshing.MeshingParameters(maxh=float(edge_mm))
    for x, y, z, short_mm in np.load(places):
        wanted.RestrictH(x, y, z, h=short_mm)
    mesh = stl.STLGeometry(surface).GenerateMesh(wanted)
    corners = mesh.Elements3D().NumPy()["nodes"][:, :4].astype(np.int64) - 1
    np.savez(out, nodes_mm=np.array(mesh.Coordinates()), corners=corners)
    return 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))

"""PLY, text or binary, taken apart by trimesh; polygons become triangles here."""

from __future__ import annotations

import io
import warnings
from typing import Any

import numpy as np
import trimesh

from planner.errors import MeshError
from planner.mesh.formats.polygons import triangles_of
from planner.mesh.formats.soup import Soup

CORNERS = ("vertex_indices", "vertex_index")
"""Both names are in use for the list of a face's corners."""


def parse_ply(raw: bytes, where: str) -> Soup:
    """Return the triangles of a PLY file.

    Raises
    ------
    MeshError
        The parser gives up, or finds no surface.
    """
    try:
        with warnings.catch_warnings(), np.errstate(all="ignore"):
            warnings.simplefilter("ignore")
            loaded: Any = trimesh.load(io.BytesIO(raw), file_type="ply", process=False, maintain_order=True)
            mesh = loaded.to_mesh() if isinstance(loaded, trimesh.Scene) else loaded
            vertices = np.asarray(mesh.vertices, dtype=np.float64).reshape(-1, 3)
            faces = np.asarray(mesh.faces, dtype=np.int64).reshape(-1, 3)
            polygons = _polygons(mesh)
            if polygons is not None and all(p.min() >= 0 and p.max() < len(vertices) for p in polygons if len(p)):
                faces = triangles_of(vertices, polygons)
    except Exception:  # noqa: BLE001  the parser raises whatever its lines stumble over; damage has no one class
        wrong = "it cannot be read as PLY"
        raise MeshError(where=where, wrong=wrong, todo="export it again, best as STL or 3MF") from None
    return Soup(vertices=vertices, faces=faces)


def _polygons(mesh: Any) -> list[Any] | None:
    """Return the polygons as they stand in the file; None where all are triangles, or the parser kept none."""
    data = mesh.metadata.get("_ply_raw", {}).get("face", {}).get("data")
    names = data.keys() if isinstance(data, dict) else getattr(getattr(data, "dtype", None), "names", None) or ()
    name = next((name for name in CORNERS if name in names), None)
    if data is None or name is None:
        return None
    rows = data[name]
    if getattr(rows, "dtype", None) is not None and rows.dtype.names:  # a count beside the corners
        rows = rows[rows.dtype.names[-1]]
    polygons = [np.asarray(row, dtype=np.int64).reshape(-1) for row in rows]
    return polygons if any(len(polygon) != 3 for polygon in polygons) else None

"""OBJ and PLY, read by trimesh; polygons become triangles."""

from __future__ import annotations

import io
import warnings
from typing import Any

import numpy as np
import trimesh

from planner.errors import MeshError
from planner.mesh.soup import Soup


def parse_polygons(raw: bytes, ending: str, where: str) -> Soup:
    """Return the triangles of an OBJ or PLY file (``ending`` is ``"obj"`` or ``"ply"``).

    Raises
    ------
    MeshError
        The parser gives up, or finds no surface.
    """
    try:
        with warnings.catch_warnings(), np.errstate(all="ignore"):
            warnings.simplefilter("ignore")
            loaded: Any = trimesh.load(
                io.BytesIO(raw), file_type=ending, process=False, maintain_order=True, skip_materials=True
            )
            mesh = loaded.to_mesh() if isinstance(loaded, trimesh.Scene) else loaded
            vertices = np.asarray(mesh.vertices, dtype=np.float64).reshape(-1, 3)
            faces = np.asarray(mesh.faces, dtype=np.int64).reshape(-1, 3)
    except MemoryError:
        raise
    except Exception:  # noqa: BLE001  the parser raises whatever its lines stumble over; damage has no one class
        wrong = f"it cannot be read as {ending.upper()}"
        raise MeshError(where=where, wrong=wrong, todo="export it again, best as STL or 3MF") from None
    return Soup(vertices=vertices, faces=faces)

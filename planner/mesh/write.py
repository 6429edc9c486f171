"""Write solids as STL and 3MF, whole or not at all, and read them back to be sure."""

from __future__ import annotations

import os
import tempfile
import uuid
from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np
from stl.base import BaseMesh

from planner.errors import MeshError
from planner.mesh.read import read_solid
from planner.mesh.solid import Solid

try:
    import lib3mf
except ImportError:  # no wheel for this platform
    lib3mf = None

BOUNDS_MM = 2e-3
"""Single precision at 350 mm keeps 2e-5 mm; merged seams a little less."""
VOLUME_SHARE = 1e-4


def write_stl(path: Path, solids: Sequence[Solid]) -> None:
    """Write solids as one binary STL; compared with what was meant after reading it back."""
    corners = np.concatenate([solid.corners_mm for solid in solids]).astype(np.float32)
    rows = np.zeros(len(corners), dtype=BaseMesh.dtype)
    rows["vectors"] = corners
    edges = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    length = np.linalg.norm(edges, axis=1, keepdims=True)
    rows["normals"] = np.divide(edges, length, out=np.zeros_like(edges), where=length > 0)
    head = b"lengths in mm".ljust(80) + len(rows).to_bytes(4, "little")
    _whole(path, lambda file: file.write_bytes(head + rows.tobytes()))
    _compared(path, solids)


def write_3mf(path: Path, items: Sequence[tuple[str, Solid]]) -> None:
    """Write named solids as one 3MF in mm: one object for each different mesh, one build item for each copy.

    ``items`` are (name, solid at its place); equal names share an object where the solids are the same object.
    """
    if lib3mf is None:
        raise MeshError(
            where=path.name, wrong="3MF cannot be written here (lib3mf is missing)", todo="use the STL file"
        )
    wrapper = lib3mf.get_wrapper()
    model = wrapper.CreateModel()
    model.SetUnit(lib3mf.ModelUnit.MilliMeter)
    model.SetBuildUUID(_uuid("build", *(name for name, _ in items)))
    for index, (name, solid) in enumerate(items):
        mesh = model.AddMeshObject()
        mesh.SetName(name)
        mesh.SetUUID(_uuid("object", str(index), name))
        vertices = (lib3mf.Position * len(solid.vertices_mm)).from_buffer_copy(
            solid.vertices_mm.astype(np.float32).tobytes()
        )
        faces = (lib3mf.Triangle * len(solid.faces)).from_buffer_copy(solid.faces.astype(np.uint32).tobytes())
        mesh.SetGeometry(vertices, faces)
        model.AddBuildItem(mesh, wrapper.GetIdentityTransform()).SetUUID(_uuid("item", str(index), name))
    writer = model.QueryWriter("3mf")
    _whole(path, lambda file: writer.WriteToFile(str(file)))
    _compared(path, [solid for _, solid in items])


def _uuid(*words: str) -> str:
    """Return an identifier made of words, so that the same plate gives the same file."""
    return str(uuid.uuid5(uuid.NAMESPACE_URL, "/".join(words)))


def _whole(path: Path, write: Callable[[Path], object]) -> None:
    """Write through a temporary file beside the target, then rename."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, suffix=path.suffix)
    os.close(handle)
    try:
        write(Path(name))
        Path(name).chmod(0o644)  # temporary files start private
        Path(name).replace(path)
    finally:
        Path(name).unlink(missing_ok=True)


def _compared(path: Path, solids: Sequence[Solid]) -> None:
    """Read a file back and refuse it where it is not what was meant."""
    back = read_solid(path)
    meant = np.concatenate([solid.bounds_mm for solid in solids])
    apart = np.abs(back.bounds_mm - [meant.min(axis=0), meant.max(axis=0)]).max()
    volume = sum(solid.volume_mm3 for solid in solids)
    sound = all(solid.sound for solid in solids)
    if apart > BOUNDS_MM or (sound and abs(back.volume_mm3 - volume) > VOLUME_SHARE * abs(volume) + 1e-3):
        wrong = f"what was written differs from what was meant (by {apart:.4f} mm)"
        raise MeshError(where=path.name, wrong=wrong, todo="report this, with the mesh")

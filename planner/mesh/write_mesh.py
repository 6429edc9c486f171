"""Write solids as STL and 3MF, whole or not at all, and read them back to be sure."""

from __future__ import annotations

import uuid
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import numpy as np
from stl.base import BaseMesh

from planner.errors import MeshError
from planner.mesh.formats.read_3mf import wrapper_3mf
from planner.mesh.read_mesh import read_solid
from planner.mesh.single_precision import in_single_precision
from planner.mesh.solid import Solid
from planner.mesh.stood_on_bed import Copy
from planner.whole_file import whole

try:
    import lib3mf
except ImportError:  # no wheel for this platform
    lib3mf = None

BOUNDS_MM = 1e-3
"""Single precision at 350 mm keeps 2e-5 mm; merged seams a little less."""
VOLUME_SHARE = 1e-4


def write_stl(path: Path, solids: Sequence[Solid]) -> list[int]:
    """Write solids as one binary STL, and return how many triangles of each: those that single precision leaves.

    What was written is compared with what was meant before it takes the place of an older file.

    Raises
    ------
    MeshError
        Nothing to write, or what was written is not what was meant; an older file stays as it was.
    """
    _refuse_nothing(path, solids)
    each = [in_single_precision(solid).corners_mm for solid in solids]
    corners = np.concatenate(each).astype(np.float32)
    rows = np.zeros(len(corners), dtype=BaseMesh.dtype)
    rows["vectors"] = corners
    edges = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    length = np.linalg.norm(edges, axis=1, keepdims=True)
    rows["normals"] = np.divide(edges, length, out=np.zeros_like(edges), where=length > 0)
    head = b"lengths in mm".ljust(80) + len(rows).to_bytes(4, "little")
    _whole(path, lambda file: file.write_bytes(head + rows.tobytes()), solids)
    return [len(one) for one in each]


def write_3mf(path: Path, copies: Sequence[Copy]) -> list[int]:
    """Write copies as one 3MF in mm: one object for each different solid, one build item for each copy.

    Returns how many triangles each copy has, as :func:`write_stl`.

    The item's part number is the copy's name. Errors as of :func:`write_stl`.
    """
    if lib3mf is None:
        raise MeshError(
            where=path.name, wrong="3MF cannot be written here (lib3mf is missing)", todo="use the STL file"
        )
    _refuse_nothing(path, copies)
    wrapper = wrapper_3mf()
    model = wrapper.CreateModel()
    model.SetUnit(lib3mf.ModelUnit.MilliMeter)
    model.SetBuildUUID(_uuid("build", *(copy.name for copy in copies)))
    objects: dict[int, tuple[Any, int]] = {}
    for index, copy in enumerate(copies):
        if id(copy.solid) not in objects:
            near = in_single_precision(copy.solid)
            objects[id(copy.solid)] = _object(model, near, len(objects)), near.triangles_n
        item = model.AddBuildItem(objects[id(copy.solid)][0], _transform(wrapper, copy))
        item.SetPartNumber(copy.name)
        item.SetUUID(_uuid("item", str(index), copy.name))
    writer = model.QueryWriter("3mf")
    _whole(path, lambda file: writer.WriteToFile(str(file)), [copy.at_place for copy in copies])
    return [objects[id(copy.solid)][1] for copy in copies]


def _object(model: Any, solid: Solid, index: int) -> Any:
    """Add one solid as an object."""
    mesh = model.AddMeshObject()
    mesh.SetName(solid.name)
    mesh.SetUUID(_uuid("object", str(index), solid.name))
    vertices = (lib3mf.Position * len(solid.vertices_mm)).from_buffer_copy(
        solid.vertices_mm.astype(np.float32).tobytes()
    )
    faces = (lib3mf.Triangle * len(solid.faces)).from_buffer_copy(solid.faces.astype(np.uint32).tobytes())
    mesh.SetGeometry(vertices, faces)
    return mesh


def _transform(wrapper: Any, copy: Copy) -> Any:
    """Return a copy's place as the standard's matrix: points are rows, so the turn is transposed."""
    matrix = wrapper.GetIdentityTransform()
    for row, values in enumerate([*copy.turn.T, copy.move_mm]):
        for column in range(3):
            matrix.Fields[row][column] = float(values[column])
    return matrix


def _refuse_nothing(path: Path, items: Sequence[object]) -> None:
    """Refuse to write an empty file."""
    if not items:
        raise MeshError(where=path.name, wrong="there is nothing to write", todo="name at least one part")


def _uuid(*words: str) -> str:
    """Return an identifier made of words, so that the same plate gives the same file."""
    return str(uuid.uuid5(uuid.NAMESPACE_URL, "/".join(words)))


def _whole(path: Path, write: Callable[[Path], object], solids: Sequence[Solid]) -> None:
    """Write a temporary file next to the target, read it back, and only then replace the target."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with whole(path) as aside:
        write(aside)
        _compared(path.name, read_solid(aside), solids)


def _compared(where: str, back: Solid, solids: Sequence[Solid]) -> None:
    """Refuse what was read back where it is not what was meant."""
    meant = np.concatenate([solid.bounds_mm for solid in solids])
    apart = float(np.abs(back.bounds_mm - [meant.min(axis=0), meant.max(axis=0)]).max())
    volume = sum(solid.volume_mm3 for solid in solids)
    sound = all(solid.sound for solid in solids)
    wrong = ""
    if apart > BOUNDS_MM:
        wrong = f"its box lies {apart:.4f} mm off"
    elif sound and not back.sound:
        wrong = f"it is no longer sound: {', '.join(back.faults)}"
    elif sound and back.healed:
        wrong = f"it reads back only after repair: {', '.join(back.healed)}"
    elif sound and abs(back.volume_mm3 - volume) > VOLUME_SHARE * abs(volume) + 1e-3:
        wrong = f"it holds {back.volume_mm3:.3f} mm³ instead of {volume:.3f}"
    if wrong:
        raise MeshError(
            where=where, wrong=f"the file that was written is wrong: {wrong}", todo="report this, with the mesh"
        )

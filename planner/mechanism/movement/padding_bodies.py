"""The room that padding takes: a layer as thick as its foam on the side of its part that lies on skin."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import manifold3d
import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.job import Job, Padding, part_of
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.range.device_bodies import Body
from planner.mesh import Solid
from planner.survey import face_normals, first_hits

SIDE_COS = 0.5
"""Faces that look within 60 degrees of the skin's side are padded; own judgement."""
OFF_MM = 1e-3
"""Rays start so far before a face."""
ROOM_SHARE = 0.5
Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def padding_bodies(
    job: Job, solids: Mapping[str, Solid], mechanism: Mechanism, factor: float
) -> tuple[tuple[Body, ...], tuple[str, ...]]:
    """Return all padding in the drawn frame for a size (foam does not grow), and notes on what takes no room.

    It takes none where another part lies as drawn: there it is cut out, or pressed flat.
    """
    bodies: list[Body] = []
    notes: list[str] = []
    for padding in job.paddings:
        toward = job.part(padding.part).skin_toward
        solid = solids[padding.part]
        layer = None if toward is None else layer_on(solid, toward, padding.thickness_mm / factor)
        if layer is None:
            notes.append(_note(padding, known=toward is not None))
        else:
            bodies += _copies(padding.part, layer, solids, mechanism)
    return tuple(bodies), tuple(notes)


def unsided_bodies(
    part: str, job: Job, solids: Mapping[str, Solid], mechanism: Mechanism, factor: float
) -> Iterator[tuple[Body, ...]]:
    """Yield for every way along the mesh's axes the padding of a part of which nobody says on which side it lies.

    A side where other parts leave less than half of its room is not the one that lies on skin.
    """
    thick_mm = max(one.thickness_mm for one in job.paddings if one.part == part) / factor
    for x, y, z in (*np.eye(3), *-np.eye(3)):
        layer = layer_on(solids[part], (float(x), float(y), float(z)), thick_mm)
        bodies = () if layer is None else tuple(_copies(part, layer, solids, mechanism))
        if layer is not None and all(body.shape.volume() > ROOM_SHARE * layer.volume() for body in bodies):
            yield bodies


def layer_on(solid: Solid, toward: Vec3, thick_mm: float) -> manifold3d.Manifold | None:
    """Return a layer on the faces of a solid that look one way and are not hidden by it; None where none is closed."""
    way = np.asarray(toward) / np.linalg.norm(np.asarray(toward))
    normals = face_normals(solid)
    faces = np.flatnonzero(normals @ way > SIDE_COS)
    if not len(faces) or solid.manifold is None:
        return None
    middles = solid.corners_mm[faces].mean(axis=1) + OFF_MM * way
    hits = first_hits(solid, normals, middles, np.tile(way, (len(faces), 1)))
    seen = np.setdiff1d(np.arange(len(faces)), hits.ray)
    return _raised(solid.vertices_mm, solid.faces[faces[seen]], normals[faces[seen]], thick_mm)


def _raised(vertices: Floats, faces: Ints, normals: Floats, thick_mm: float) -> manifold3d.Manifold | None:
    """Return what lies between some faces and the same faces raised along their corners' mean normals."""
    used, place = np.unique(faces, return_inverse=True)
    low = place.reshape(-1, 3)
    mean = np.zeros((len(used), 3))
    np.add.at(mean, low.ravel(), np.repeat(normals, 3, axis=0))
    mean /= np.maximum(np.linalg.norm(mean, axis=1, keepdims=True), 1e-9)
    lean = np.ones(len(used))
    np.minimum.at(lean, low.ravel(), np.einsum("ij,ij->i", np.repeat(normals, 3, axis=0), mean[low.ravel()]))
    foot = vertices[used]
    top = foot + mean * (thick_mm / np.maximum(lean, SIDE_COS))[:, None]
    edges = np.concatenate([low[:, [0, 1]], low[:, [1, 2]], low[:, [2, 0]]])
    back = {(b, a) for a, b in edges.tolist()}
    rim = np.array([edge for edge in edges.tolist() if tuple(edge) not in back], dtype=np.int64).reshape(-1, 2)
    n = len(used)
    walls = np.concatenate(
        [
            np.column_stack([rim[:, 0], rim[:, 1], rim[:, 1] + n]),
            np.column_stack([rim[:, 0], rim[:, 1] + n, rim[:, 0] + n]),
        ]
    )
    mesh = manifold3d.Mesh64(
        vert_properties=np.concatenate([foot, top]),
        tri_verts=np.concatenate([low[:, ::-1], low + n, walls]).astype(np.uint64),
    )
    body = manifold3d.Manifold(mesh)
    return None if body.status() != manifold3d.Error.NoError or body.is_empty() or body.volume() <= 0.0 else body


def _copies(part: str, layer: manifold3d.Manifold, solids: Mapping[str, Solid], mechanism: Mechanism) -> Iterator[Body]:
    """Yield the padding of every placed copy of a part, without the room where other copies stand."""
    number = {copy: n for n, group in enumerate(mechanism.groups) for copy in group}
    placed = {copy: frame for copy, frame in mechanism.frames.items() if copy in number}
    for copy in [one for one in placed if part_of(one) == part]:
        shape = layer.transform(placed[copy].matrix())
        box = shape.bounding_box()
        for other, frame in placed.items():
            body = solids[part_of(other)].manifold
            if other == copy or body is None:
                continue
            there = body.transform(frame.matrix())
            if _overlap(box, there.bounding_box()):
                shape -= there
        if not shape.is_empty():
            yield Body(name=f"the padding of {copy}", group=number[copy], shape=shape, fixed=True, soft=True)


def _overlap(one: Sequence[float], other: Sequence[float]) -> bool:
    """Return whether two boxes, each its low corner before its high one, have room in common."""
    return all(one[k] < other[k + 3] and other[k] < one[k + 3] for k in range(3))


def _note(padding: Padding, *, known: bool) -> str:
    """Say that padding takes no room, and what would tell where it lies."""
    why = f"no closed layer lies on that side of {padding.part}" if known else "which side it covers is not stated"
    ask = "" if known else f": write skin_toward of {padding.part}"
    told = f"the padding of {padding.part}, {padding.thickness_mm:g} mm thick"
    return f"{told}, is left out when collisions are looked for: {why}{ask}"

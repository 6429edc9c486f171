"""A forming buck: the limb's side of the padding as a solid with a flat base, to form padding on, never a person."""

from __future__ import annotations

from functools import partial

import manifold3d
import numpy as np
from scipy.spatial import cKDTree

from planner.mesh import Solid, arrays_of, posed, written_sound
from planner.pattern.patch import Floats, Patch
from planner.pattern.round_fit import round_fit
from planner.pattern.skin_patch import SkinPatch
from planner.pattern.slab_form import slab_form

FOOT_MM = 10.0
"""Height of the foot below the lowest edge, so that padding can end free of the table; common practice, no source."""
FILLED_MM = 0.5
"""A hollow of the form that its hull fills by more is no form any more; common practice, no source."""
SAME_MM = 1e-6
BLOCK_N = 1000
"""Vertices that are held against the hull at once: a fine mesh would fill the memory."""
UNDER_COS = 0.7
"""Sides of the form that look so much downward stand on the foot."""
ACROSS_COS = 0.5
"""A limb's axis lies across the way down, else it gives no slabs."""
UPRIGHT_COS = 0.1
"""Steeper faces cannot be closed straight down: what is formed would not come off."""
LEVEL_SHARE = 0.1
"""Below this share of its area a surface looks all round, and the form stands on its end."""


def buck(skin: SkinPatch, off_mm: float, name: str) -> Solid | str:
    """Return the buck of a patch, standing on its base at z = 0; or why there is none.

    Its upper side is the patch moved by ``off_mm``, the padding's thickness and the ease: where the limb is. Where that
    bulges for the limb, the buck is its convex hull, or hulls of slabs along it; else it is closed straight down.
    """
    patch, fit = skin.patch, skin.fit
    far = patch.offset(off_mm)
    if fit is not None:
        far = Patch(vertices_mm=fit.moved(patch.vertices_mm, off_mm), faces=patch.faces)
    look = patch.crosses_mm2.sum(axis=0) / 2.0
    if float(np.linalg.norm(look)) >= LEVEL_SHARE * patch.area_mm2:
        down = look / np.linalg.norm(look)
    elif fit is not None:
        down = fit.axis
    else:
        return "the surface looks all round, and has no axis to stand on"
    body = _bulging(far, down) or _closed(far, down)
    if body is None:
        return "what is formed on it would not come off: the surface bends back under itself"
    if body.status() != manifold3d.Error.NoError or body.volume() <= 0.0:
        return "its surface cannot be closed to a solid"
    vertices, faces = arrays_of(body)
    x, y, z = (float(value) for value in down)
    made = posed(Solid(name=name, vertices_mm=vertices, faces=faces, sha256=""), (x, y, z))
    return made if written_sound(made) else "its triangles are too fine for a file of single precision"


def _bulging(far: Patch, down: Floats) -> manifold3d.Manifold | None:
    """Return the form of a surface that bulges for the limb, waisted or not; None where it is hollow for it."""
    base = float((far.vertices_mm @ down).max()) + FOOT_MM
    if not _inside(manifold3d.Manifold.hull_points(far.vertices_mm), far):
        return None
    whole = _footed(far.vertices_mm, base, down)
    near = round_fit(far)
    if whole is not None or near is None or abs(float(near.axis @ down)) > ACROSS_COS:
        return whole
    return slab_form(far, near.axis, base, partial(_footed, down=down))


def _inside(hull: manifold3d.Manifold, patch: Patch) -> bool:
    """Return whether a patch looks into its hull, as the inside of a shell does."""
    vertices, faces = arrays_of(hull)
    if not len(faces):
        return False
    inward = vertices.mean(axis=0) - patch.corners_mm.mean(axis=1)
    return float(np.einsum("ij,ij->", inward, patch.crosses_mm2)) > 0.0


def _filled_mm(hull: manifold3d.Manifold, points_mm: Floats) -> float:
    """Return how deep points lie below their hull at most."""
    vertices, faces = arrays_of(hull)
    if not len(faces):
        return float("inf")
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    normals = np.cross(b - a, c - a)
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-12)
    away = np.einsum("ij,ij->i", normals, a)
    far, _ = cKDTree(vertices).query(points_mm)
    below = points_mm[far > SAME_MM]  # the others are corners of the hull
    blocks = (below[k : k + BLOCK_N] for k in range(0, len(below), BLOCK_N))
    return max((float((away - block @ normals.T).min(axis=1).max()) for block in blocks), default=0.0)


def _footed(points_mm: Floats, base_mm: float, down: Floats) -> manifold3d.Manifold | None:
    """Return the convex form of points with a foot from its underside to a base; None where it fills too much."""
    hull = manifold3d.Manifold.hull_points(points_mm)
    if _filled_mm(hull, points_mm) > FILLED_MM:
        return None
    vertices, faces = arrays_of(hull)
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    normals = np.cross(b - a, c - a)
    under = normals @ down >= UNDER_COS * np.linalg.norm(normals, axis=1)
    rim = vertices[np.unique(faces[under])]
    feet = rim + (base_mm - rim @ down)[:, None] * down
    return hull + manifold3d.Manifold.hull_points(np.concatenate([rim, feet]))


def _closed(patch: Patch, down: Floats) -> manifold3d.Manifold | None:
    """Return a surface closed straight down to a base; None where it bends back under itself."""
    known = patch.areas_mm2 > 1e-6
    if (patch.normals[known] @ down < UPRIGHT_COS).any():
        return None
    n, base = len(patch.vertices_mm), float((patch.vertices_mm @ down).max()) + FOOT_MM
    feet = patch.vertices_mm + (base - patch.vertices_mm @ down)[:, None] * down
    walls = []
    for loop in patch.loops:
        here, after = loop, np.roll(loop, -1)
        walls += [np.column_stack([here, after, after + n]), np.column_stack([here, after + n, here + n])]
    faces = np.concatenate([patch.faces[:, ::-1], patch.faces + n, *walls])
    mesh = manifold3d.Mesh64(
        vert_properties=np.concatenate([patch.vertices_mm, feet]), tri_verts=faces.astype(np.uint64)
    )
    return manifold3d.Manifold(mesh)

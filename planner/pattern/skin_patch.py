"""Which piece of a part's surface padding lies on: the one that looks to the skin."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from planner.finding import Vec3
from planner.mesh import Solid
from planner.pattern.patch import Ints, Patch, patch_of
from planner.pattern.round_fit import RoundFit, round_fit
from planner.pattern.smooth_groups import SmoothGroup, smooth_groups

HOLLOW_RATIO = 0.8
"""A piece is the inside of a shell where at least so much of its bending is hollow; common practice, no source."""
BEND_DEG = 15.0
"""And where it bends so far from its mean: less could be a plate's dimple."""
RIVAL_SHARE = 0.5
"""Another piece of at least this share of the area might as well be meant."""
ON_IT_MM = 0.1
"""Vertices lie on a cylinder or cone where none is farther off; the outline is then true to that."""
MOST_SHARE = 0.9
"""Triangles that do not lie on it are left out where they are few: beginnings of a rounded lip, a tab."""


@dataclass(frozen=True, kw_only=True, eq=False)  # arrays do not compare
class SkinPatch:
    """The piece that padding lies on.

    Parameters
    ----------
    patch
        Its triangles, at size.
    fit
        The cylinder or cone that it lies on, to ``ON_IT_MM``; None where it lies on none.
    rival_share
        Area of the next piece that might be meant, over its own; 0 where there is none.
    by
        How it was found, in words.
    """

    patch: Patch
    fit: RoundFit | None
    rival_share: float
    by: str


def skin_patch(solid: Solid, skin_toward: Vec3 | None) -> SkinPatch | None:
    """Return the piece of a solid, at size, that lies on the skin; None where none can be told from the others.

    With ``skin_toward`` it is the piece that looks most that way. Without, it is the largest hollow piece: the inside
    of a shell, which looks to the limb's axis.
    """
    groups = smooth_groups(solid)
    if skin_toward is not None:
        way = np.asarray(skin_toward, float) / np.linalg.norm(skin_toward)
        ranked = sorted(((float(one.toward @ way), one) for one in groups), key=lambda each: -each[0])
        by = "the surface that looks most along skin_toward"
    else:
        hollow = [one for one in groups if one.hollow_ratio >= HOLLOW_RATIO and one.bend_deg >= BEND_DEG]
        ranked = [(one.area_mm2, one) for one in hollow]
        by = "the largest hollow surface, which looks to the limb's axis"
    if not ranked or ranked[0][0] <= 0.0:
        return None
    rival = ranked[1][0] / ranked[0][0] if len(ranked) > 1 else 0.0
    patch, fit = _on_its_fit(solid, ranked[0][1])
    return SkinPatch(patch=patch, fit=fit, rival_share=max(0.0, rival), by=by)


def is_rival(found: SkinPatch) -> bool:
    """Return whether another piece might as well be meant."""
    return found.rival_share >= RIVAL_SHARE


def _on_its_fit(solid: Solid, group: SmoothGroup) -> tuple[Patch, RoundFit | None]:
    """Return a piece without the beginnings of its lips, and the cylinder or cone that it lies on, if any."""
    faces = solid.faces[group.faces]
    whole = patch_of(solid.vertices_mm, faces)
    fit = round_fit(whole)
    if fit is None or fit.off_mm <= ON_IT_MM:
        return whole if fit is None else _largest(whole), fit
    # What stands out, such as a tab beside the shell, must not pull the fit toward itself.
    most = round_fit(whole, strays=True)
    kept = faces if most is None else faces[_off_mm(most, solid, faces) <= ON_IT_MM]
    patch = patch_of(solid.vertices_mm, kept) if len(kept) else whole
    fit = round_fit(patch) if patch.area_mm2 >= MOST_SHARE * whole.area_mm2 else None
    if fit is None or fit.off_mm > ON_IT_MM:
        return whole, None
    return _largest(patch), fit


def _off_mm(fit: RoundFit, solid: Solid, faces: Ints) -> np.ndarray:
    """Return how far each triangle's farthest vertex lies off a cylinder or cone."""
    _, z, radius = fit.seen(solid.vertices_mm[faces].reshape(-1, 3))
    off = np.abs(radius - fit.radius_mm - fit.slope_ratio * z).reshape(-1, 3)
    farthest: np.ndarray = off.max(axis=1)
    return farthest


def _largest(patch: Patch) -> Patch:
    """Return the largest connected piece of a patch, by its edges."""
    edges = np.sort(np.concatenate([patch.faces[:, [0, 1]], patch.faces[:, [1, 2]], patch.faces[:, [2, 0]]]), axis=1)
    order = np.lexsort(edges.T)
    same = (edges[order][1:] == edges[order][:-1]).all(axis=1)
    face = np.tile(np.arange(len(patch.faces)), 3)[order]
    pairs = face[:-1][same], face[1:][same]
    graph = coo_matrix((np.ones(len(pairs[0])), pairs), (len(patch.faces), len(patch.faces)))
    label = connected_components(graph, directed=False)[1]
    areas = np.bincount(label, weights=patch.areas_mm2)
    return patch_of(patch.vertices_mm, patch.faces[label == int(np.argmax(areas))])

"""Concave cylinders in a mesh, whatever the pattern of their triangles.

Triangles that meet in gentle bends are one region. A region whose outermost corners lie on one circle across
the axis that its normals vary least along is a cylinder; what is left over is looked at once more along every
axis that the region suggests. Each found cylinder then takes in its neighbours that lie on it.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.cylinder import Cylinder, measured, own_ends, slack_of, united
from planner.survey.bores.facets import Facets
from planner.survey.bores.fitted_circles import COARSE, EXACT, ROUNDED, fitted, noisy
from planner.survey.bores.patches import noise_mm, patches_of
from planner.survey.bores.round_search import RoundSearch

Floats = NDArray[np.float64]

NEARLY = 0.01
"""Share of the radius by which a loosely fitted stretch of a bore may differ from the rest."""
ALIKE, PARALLEL_COS, TOUCH_MM = 0.08, float(np.cos(np.radians(4.0))), 0.01
"""How alike arcs of one circle are, fitted each by itself: in share of the radius, in lean, and along the axis."""


def cylinders_of(solid: Solid, facets: Facets) -> list[Cylinder]:
    """Return every concave cylinder of a mesh, whole or partial, that ends in edges or is long."""
    search, noise = RoundSearch(solid, facets), 0.0
    search.look(EXACT)
    if not search.exact():  # where corners lie on circles exactly, what bends both ways was drawn so
        noise = noise_mm(solid, facets)
    if noise:
        search = RoundSearch(solid, facets)
        for faces in patches_of(solid, facets, noise):
            search.take(faces, None, noisy(noise), noise)
    else:
        search.look(ROUNDED)
    search.look(COARSE)
    united = _united(solid, facets, search.found, noise)
    return [c for c in united if own_ends(solid, facets, c)]


def _united(solid: Solid, facets: Facets, parts: list[Cylinder], noise: float) -> list[Cylinder]:
    """Put arcs of one circle together that a slot, a keyway or a crossing bore has cut apart."""
    left = sorted(parts, key=lambda c: -c.coverage_deg * c.depth_mm)
    done: list[Cylinder] = []
    while left:
        one = left.pop(0)
        axes, centres = (
            np.array([c.axis for c in left]).reshape(-1, 3),
            np.array([c.centre for c in left]).reshape(-1, 3),
        )
        radii, deep = np.array([c.radius_mm for c in left]), np.array([c.depth_mm for c in left])
        away = centres - one.centre
        along = away @ one.axis
        beside = np.linalg.norm(away - along[:, None] * one.axis, axis=1)
        near = ALIKE * one.radius_mm
        like = (np.abs(axes @ one.axis) > PARALLEL_COS) & (beside < near) & (np.abs(radii - one.radius_mm) < near)
        like &= np.abs(along) < (deep + one.depth_mm) / 2 + TOUCH_MM
        gone = []
        for k in np.flatnonzero(like):
            both = united(solid, facets, [one, left[k]], noise) or _absorbed(solid, facets, one, left[k], noise)
            if both is not None:
                one = both
                gone.append(k)
        left = [c for k, c in enumerate(left) if k not in gone]
        if gone:
            left.append(one)  # it may reach others now
        else:
            done.append(one)
    return done


def _absorbed(solid: Solid, facets: Facets, one: Cylinder, other: Cylinder, noise: float) -> Cylinder | None:
    """Return a cylinder with the triangles of another that all but lie on it, fitted to its own alone; else None."""
    away = other.centre - one.centre
    beside = float(np.linalg.norm(away - (away @ one.axis) * one.axis))
    near = NEARLY * one.radius_mm
    if other.slack_mm <= one.slack_mm or beside > near or abs(one.radius_mm - other.radius_mm) > near:
        return None
    along = abs(float(away @ one.axis))
    if along > (one.depth_mm + other.depth_mm) / 2 - near:  # a step of its own
        return None
    points = solid.vertices_mm[np.unique(solid.faces[one.faces])]
    found = fitted(points, one.axis, slack_of([one]), hull=noise == 0.0)
    faces = np.concatenate([one.faces, other.faces])
    return None if found is None else measured(solid, facets, faces, found, noise)

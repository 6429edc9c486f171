"""A solid as a file keeps it: corners rounded to single precision, and sound for a reader that merges equal ones.

Booleans leave corners that lie nearer together than a file can tell. Written as they are, they become facets without
area; readers drop those and find the surface open. So corners are rounded first, those that fall together become
one, and the result is proved on the rounded corners.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import count

import numpy as np
from numpy.typing import NDArray

from planner.mesh.repair.edges import crowded_n, directed
from planner.mesh.repair.seams import merged_equal, whole
from planner.mesh.solid import Solid, arrays_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

FLAT_MM = 1e-6
"""A facet lower than this is turned away: single precision tells no less at 10 mm from the origin."""
LOST_MM = 1e-7
"""A facet lower than this has no area for other readers."""
ROUNDS_MOST = 20
"""Turning the edges of flat facets leaves fewer of them every time, or it stops."""
GRIDS_MM = (2.0**-16, 2.0**-14, 2.0**-13)
"""Corners are put on the finest of these grids that helps: single precision holds it exactly out to 1 m and more."""


def in_single_precision(solid: Solid) -> Solid:
    """Return a sound solid with its corners in single precision, equal ones merged and no facet without area.

    An unsound solid is returned as it is; so is one for which no grid of ``GRIDS_MM`` helps: whoever writes it finds
    out on reading it back.
    """
    body = solid.manifold
    if body is None:
        return solid
    found = _joined(solid, solid.vertices_mm.astype(np.float32).astype(np.float64), solid.faces)
    if _clean(found):
        return found
    for grid_mm in GRIDS_MM:
        vertices_mm, faces = arrays_of(body.simplify(grid_mm))
        found = _joined(solid, np.round(vertices_mm / grid_mm) * grid_mm, faces)
        if _clean(found):
            return found
    return solid


def written_sound(solid: Solid) -> bool:
    """Return whether a file in single precision holds a solid soundly."""
    return _clean(in_single_precision(solid))


def least_heights_mm(corners_mm: Floats) -> Floats:
    """Return the least height of every triangle (n, 3, 3): twice its area over its longest edge; 0 without area."""
    a, b, c = (corners_mm[:, i] for i in range(3))
    longest = np.max([np.linalg.norm(side, axis=1) for side in (b - a, c - b, a - c)], axis=0)
    doubled = np.linalg.norm(np.cross(b - a, c - a), axis=1)
    heights: Floats = np.divide(doubled, longest, out=np.zeros_like(doubled), where=longest > 0)
    return heights


def _joined(solid: Solid, vertices_mm: Floats, faces: Ints) -> Solid:
    """Return the solid with other arrays: equal corners merged, facets without area left out or turned away."""
    near, index = merged_equal(vertices_mm, faces)
    return replace(solid, vertices_mm=near, faces=_turned(near, whole(index)))


def _turned(vertices_mm: Floats, faces: Ints) -> Ints:
    """Return faces in which a flat facet and its neighbour across its longest side share the other diagonal.

    The corner of a flat facet lies on its longest side, so both new facets cover what the neighbour covered.
    """
    faces = faces.copy()
    most = int(faces.max(initial=0)) + 1
    both = np.array([most, 1])  # makes one number of the two corners of an edge
    for _ in range(ROUNDS_MOST):
        flat = np.flatnonzero(least_heights_mm(vertices_mm[faces]) < FLAT_MM)
        if not len(flat):
            break
        owner = dict(zip((directed(faces) @ both).tolist(), count(), strict=False))  # every edge of every facet
        touched: set[int] = set()
        for each in flat:
            corners = faces[each]
            sides = np.linalg.norm(vertices_mm[np.roll(corners, -1)] - vertices_mm[corners], axis=1)
            a, c, b = (int(corner) for corner in np.roll(corners, -int(np.argmax(sides))))
            across = owner.get(c * most + a, -1)
            other = across // 3
            if across < 0 or {int(each), other} & touched:
                continue
            d = int(faces[other][(across % 3 + 2) % 3])
            if d == b or b * most + d in owner or d * most + b in owner:
                continue
            faces[each], faces[other] = (a, d, b), (d, c, b)
            touched |= {int(each), other}
        if not touched:
            break  # none of those that are left can be turned
    return faces


def _clean(solid: Solid) -> bool:
    """Return whether a solid has a volume, two facets at every edge, and no facet without area."""
    body = solid.manifold
    if body is None or body.is_empty() or crowded_n(solid.faces):
        return False
    return bool(least_heights_mm(solid.corners_mm).min(initial=np.inf) > LOST_MM)

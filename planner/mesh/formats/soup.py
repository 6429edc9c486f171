"""What a file holds before it is a solid: loose triangles, and the unit the file names, if any."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.errors import MeshError

TRIANGLES_MOST = 20_000_000
FARTHEST = 1e7
"""A coordinate beyond this is damage, in any unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Soup:
    """Triangles as read: ``vertices`` (n, 3) in the file's unit, ``faces`` (m, 3); ``unit`` None where unnamed."""

    vertices: NDArray[np.float64]
    faces: NDArray[np.int64]
    unit: str | None = None


def checked(soup: Soup, where: str) -> Soup:
    """Return the triangles, or refuse what cannot be a surface.

    Raises
    ------
    MeshError
        No triangles, too many, coordinates that are no numbers or too far out, corners that do not exist.
    """
    if len(soup.faces) == 0 or len(soup.vertices) == 0:
        raise MeshError(where=where, wrong="there are no triangles in it", todo="export the part again")
    if len(soup.faces) > TRIANGLES_MOST:
        raise MeshError(where=where, wrong=f"it has {len(soup.faces)} triangles", todo="export it coarser")
    if not np.isfinite(soup.vertices).all():
        raise MeshError(where=where, wrong="some coordinates are not numbers (NaN or infinite)", todo="export it again")
    if float(np.abs(soup.vertices).max()) > FARTHEST:
        far = float(np.abs(soup.vertices).max())
        raise MeshError(
            where=where, wrong=f"a coordinate of {far:.3g} cannot be", todo="export it again, near the origin"
        )
    if int(soup.faces.min()) < 0 or int(soup.faces.max()) >= len(soup.vertices):
        raise MeshError(where=where, wrong="a triangle names a corner that does not exist", todo="export it again")
    return soup

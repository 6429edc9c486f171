"""OBJ: the ``v`` and ``f`` lines of its text; everything else in it is not geometry."""

from __future__ import annotations

import re

import numpy as np

from planner.errors import MeshError
from planner.mesh.formats.polygons import triangles_of
from planner.mesh.formats.soup import Soup

CONTINUED = re.compile(r"\\[ \t]*\r?\n")
MOST = 100_000_000
"""No file names so many corners."""


def parse_obj(raw: bytes, where: str) -> Soup:
    """Return the triangles of an OBJ file; a negative index counts back from the vertices read so far.

    Raises
    ------
    MeshError
        A line that does not hold its numbers, or names a corner that does not exist.
    """
    points: list[tuple[float, float, float]] = []
    polygons: list[np.ndarray[tuple[int], np.dtype[np.int64]]] = []
    lines = CONTINUED.sub(" ", raw.decode("latin-1").removeprefix("ï»¿")).splitlines()
    for number, line in enumerate(lines, 1):
        words = line.split("#", 1)[0].split()
        if not words or words[0] not in ("v", "f"):
            continue
        try:
            if words[0] == "v":
                points.append((float(words[1]), float(words[2]), float(words[3])))
                continue
            named = [int(word.split("/", 1)[0]) for word in words[1:]]
        except (ValueError, IndexError):
            wrong = f"line {number} is no {'vertex' if words[0] == 'v' else 'face'}"
            raise MeshError(where=where, wrong=wrong, todo="export it again, best as STL or 3MF") from None
        if named and (0 in named or min(named) < -len(points) or max(named) > MOST):
            raise MeshError(
                where=where, wrong=f"line {number} names a corner that does not exist", todo="export it again"
            )
        polygons.append(np.array([index - 1 if index > 0 else len(points) + index for index in named], dtype=np.int64))
    vertices = np.array(points, dtype=np.float64).reshape(-1, 3)
    if polygons and int(np.concatenate(polygons).max(initial=-1)) >= len(vertices):
        raise MeshError(where=where, wrong="a face names a corner that does not exist", todo="export it again")
    with np.errstate(all="ignore"):
        return Soup(vertices=vertices, faces=triangles_of(vertices, polygons))

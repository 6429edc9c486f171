"""STL: binary and ASCII, told apart by size and content, never by the word at the start.

Binary is 80 bytes of header, a little-endian count, and 50 bytes a triangle (de-facto since 1989, from memory).
"""

from __future__ import annotations

import numpy as np
from stl.base import BaseMesh

from planner.errors import MeshError
from planner.mesh.soup import TRIANGLES_MOST, Soup

HEAD, ROW = 84, 50


def parse_stl(raw: bytes, where: str) -> Soup:
    """Return the triangles of an STL file.

    Raises
    ------
    MeshError
        Empty, cut off, or neither binary nor ASCII.
    """
    count = int.from_bytes(raw[80:HEAD], "little") if len(raw) >= HEAD else -1
    if count >= 0 and len(raw) == HEAD + ROW * count:
        return _binary(raw, count)
    head = raw.lstrip()[:5].lower()
    if head == b"solid" and (b"facet" in raw.lower() or b"endsolid" in raw.lower()):
        return _ascii(raw, where)
    if count < 0:
        raise MeshError(where=where, wrong=f"{len(raw)} bytes are too few for an STL file", todo="export it again")
    if count > TRIANGLES_MOST or len(raw) < HEAD + ROW * count:
        have = (len(raw) - HEAD) // ROW
        wrong = f"it names {count} triangles and holds {have}: cut off, or no STL"
        raise MeshError(where=where, wrong=wrong, todo="export or download it again")
    return _binary(raw, count)  # some writers append bytes of their own


def _binary(raw: bytes, count: int) -> Soup:
    """Read binary triangles with the library's own record layout."""
    rows = np.frombuffer(raw, dtype=BaseMesh.dtype, count=count, offset=HEAD)
    corners = rows["vectors"].astype(np.float64).reshape(-1, 3)
    return Soup(vertices=corners, faces=np.arange(len(corners)).reshape(-1, 3))


def _ascii(raw: bytes, where: str) -> Soup:
    """Read every ``vertex`` line, of one solid or of several in one file."""
    words = raw.lower().split()
    at = [index for index, word in enumerate(words) if word == b"vertex"]
    try:
        flat = [float(words[index + step]) for index in at for step in (1, 2, 3)]
    except (ValueError, IndexError):
        raise MeshError(
            where=where, wrong="a vertex line does not hold three numbers", todo="export it again"
        ) from None
    if len(at) % 3:
        raise MeshError(where=where, wrong="its last triangle is cut off", todo="export or download it again")
    corners = np.array(flat, dtype=np.float64).reshape(-1, 3)
    return Soup(vertices=corners, faces=np.arange(len(corners)).reshape(-1, 3))

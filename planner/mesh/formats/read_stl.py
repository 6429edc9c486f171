"""STL: binary and ASCII, distinguished by size and content, never by the word at the start.

Binary is 80 bytes of header, a little-endian count, and 50 bytes a triangle (de-facto since 1989, from memory).
"""

from __future__ import annotations

import re

import numpy as np
from stl.base import BaseMesh

from planner.errors import MeshError
from planner.mesh.formats.soup import TRIANGLES_MOST, Soup

HEAD, ROW = 84, 50
BOM = b"\xef\xbb\xbf"
"""Some writers of text begin with it."""
VERTEX = re.compile(rb"^[ \t]*vertex[ \t]+(.*)$", re.IGNORECASE | re.MULTILINE)
ENDED = re.compile(rb"^[ \t]*(facet|endsolid)\b", re.IGNORECASE | re.MULTILINE)


def parse_stl(raw: bytes, where: str) -> Soup:
    """Return the triangles of an STL file.

    Raises
    ------
    MeshError
        Empty, cut off, or neither binary nor ASCII.
    """
    raw = raw.removeprefix(BOM)
    count = int.from_bytes(raw[80:HEAD], "little") if len(raw) >= HEAD else -1
    if count >= 0 and len(raw) == HEAD + ROW * count:
        return _binary(raw, count)
    if raw.lstrip()[:5].lower() == b"solid" and (soup := _ascii(raw, where)) is not None:
        return soup
    if count < 0:
        raise MeshError(where=where, wrong=f"{len(raw)} bytes are too few for an STL file", todo="export it again")
    if count > TRIANGLES_MOST or len(raw) < HEAD + ROW * count:
        have = (len(raw) - HEAD) // ROW
        wrong = f"it should hold {count} triangles and holds {have}: it is cut off, or not an STL file"
        raise MeshError(where=where, wrong=wrong, todo="export or download it again")
    return _binary(raw, count)  # some writers append bytes of their own


def _binary(raw: bytes, count: int) -> Soup:
    """Read binary triangles with the library's own record layout."""
    rows = np.frombuffer(raw, dtype=BaseMesh.dtype, count=count, offset=HEAD)
    with np.errstate(invalid="ignore"):  # signalling NaNs are refused later, in one sentence
        corners = rows["vectors"].astype(np.float64).reshape(-1, 3)
    return Soup(vertices=corners, faces=np.arange(len(corners)).reshape(-1, 3))


def _ascii(raw: bytes, where: str) -> Soup | None:
    """Read every ``vertex`` line, of one solid or of several in one file; None where the text ends in binary."""
    text = raw.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    lines = VERTEX.findall(text)
    if not lines:
        return Soup(vertices=np.empty((0, 3)), faces=np.empty((0, 3), np.int64)) if _only_text(text) else None
    try:
        corners = np.array([[float(word) for word in line.split()[:3]] for line in lines], dtype=np.float64)
    except ValueError:
        corners = np.empty((0, 0))
    if corners.ndim != 2 or corners.shape[1] != 3:
        raise MeshError(where=where, wrong="a vertex line does not hold three numbers", todo="export it again")
    if len(corners) % 3:
        raise MeshError(where=where, wrong="its last triangle is cut off", todo="export or download it again")
    return Soup(vertices=corners, faces=np.arange(len(corners)).reshape(-1, 3))


def _only_text(text: bytes) -> bool:
    """Return whether a file that begins like text and has no vertex really is text."""
    return b"\0" not in text and ENDED.search(text) is not None

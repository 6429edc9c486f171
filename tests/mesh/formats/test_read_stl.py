"""STL: binary is told by its length, ASCII by its words, and what is cut off is refused."""

from __future__ import annotations

import struct

import numpy as np
import pytest

from planner.errors import MeshError
from planner.mesh.formats.read_stl import parse_stl

CORNERS = np.array([[0.0, 0, 0], [1, 0, 0], [0, 1, 0]])
BINARY = b"solid x".ljust(80) + struct.pack("<I", 1) + struct.pack("<12fH", 0, 0, 1, *CORNERS.ravel(), 0)
ASCII = (
    b"solid x\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nvertex 0 1 0\nendloop\nendfacet\nendsolid\n"
)


@pytest.mark.parametrize("raw", [BINARY, ASCII, ASCII.replace(b"\n", b"\r\n"), BINARY + b"more"])
def test_both_kinds_give_the_same_triangle(raw: bytes) -> None:
    """Also where a binary file begins with "solid", with other line ends, and with bytes of its writer behind it."""
    soup = parse_stl(raw, "a.stl")

    assert soup.vertices[soup.faces[0]] == pytest.approx(CORNERS)


@pytest.mark.parametrize("raw", [b"", BINARY[:-10], ASCII.replace(b"vertex 0 1 0\n", b""), b"not a mesh at all"])
def test_what_is_cut_off_is_refused(raw: bytes) -> None:
    """One sentence with the file's name, never a part of the triangles."""
    with pytest.raises(MeshError) as caught:
        parse_stl(raw, "a.stl")

    assert str(caught.value).startswith("a.stl: ")

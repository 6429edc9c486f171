"""OBJ: vertices and faces of its text, indices from either end."""

from __future__ import annotations

import numpy as np
import pytest

from planner.errors import MeshError
from planner.mesh.formats.read_obj import parse_obj

SQUARE = b"v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nf -4 -3 -2 -1  # a square\n"


def test_a_square_is_two_triangles() -> None:
    """Four corners and one polygon: two triangles whose areas add up to 1 (by hand)."""
    soup = parse_obj(SQUARE, "a.obj")
    a, b, c = (soup.vertices[soup.faces[:, k]] for k in range(3))

    assert len(soup.faces) == 2
    assert np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2 == pytest.approx(1.0)


@pytest.mark.parametrize("raw", [b"v 0 0\n", b"v 0 0 0\nf 1 2 3\n", b"v 0 0 0\nf 0 1 1\n"])
def test_damage_is_one_sentence(raw: bytes) -> None:
    """The file is named, and what to do about it."""
    with pytest.raises(MeshError, match=r"a\.obj: .*; export it again"):
        parse_obj(raw, "a.obj")

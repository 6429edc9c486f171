"""PLY: polygons become triangles, and damage is one sentence."""

from __future__ import annotations

import numpy as np
import pytest

from planner.errors import MeshError
from planner.mesh.formats.read_ply import parse_ply

SQUARE = b"ply\nformat ascii 1.0\nelement vertex 4\nproperty float x\nproperty float y\nproperty float z\nelement face 1\nproperty list uchar int vertex_indices\nend_header\n0 0 0\n1 0 0\n1 1 0\n0 1 0\n4 0 1 2 3\n"


def test_a_square_is_two_triangles() -> None:
    """Four corners and one polygon: two triangles whose areas add up to 1 (by hand)."""
    soup = parse_ply(SQUARE, "a.ply")
    a, b, c = (soup.vertices[soup.faces[:, k]] for k in range(3))

    assert len(soup.faces) == 2
    assert np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2 == pytest.approx(1.0)


@pytest.mark.parametrize("raw", [b"ply\n", b""])
def test_damage_is_one_sentence(raw: bytes) -> None:
    """The file is named, and what to do about it."""
    with pytest.raises(MeshError, match=r"a\.ply: .*; export it again"):
        parse_ply(raw, "a.ply")

"""Loose triangles: what cannot be a surface is refused in one sentence."""

from __future__ import annotations

import numpy as np
import pytest

from planner.errors import MeshError
from planner.mesh.formats.soup import FARTHEST, Soup, checked

CORNERS = np.array([[0.0, 0, 0], [1, 0, 0], [0, 1, 0]])
FACE = np.array([[0, 1, 2]])


@pytest.mark.parametrize(
    ("vertices", "faces", "word"),
    [
        (CORNERS, FACE[:0], "no triangles"),
        (CORNERS * np.nan, FACE, "NaN"),
        (CORNERS * 2 * FARTHEST, FACE, "cannot be"),
        (CORNERS, FACE + 1, "does not exist"),
        (CORNERS, FACE - 1, "does not exist"),
    ],
)
def test_what_cannot_be_a_surface_is_refused(vertices: np.ndarray, faces: np.ndarray, word: str) -> None:
    """No triangles, no numbers, too far out, corners that are not there: each is named with the file."""
    with pytest.raises(MeshError) as caught:
        checked(Soup(vertices=vertices, faces=faces), "a.stl")

    assert str(caught.value).startswith("a.stl: ")
    assert word in str(caught.value)


def test_a_triangle_passes() -> None:
    """One good triangle comes back as it was."""
    soup = Soup(vertices=CORNERS, faces=FACE)

    assert checked(soup, "a.stl") is soup

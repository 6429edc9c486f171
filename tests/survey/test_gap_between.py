"""Gaps between meshes as drawn: their least distance where they lie near, nothing where they touch."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.survey.gap_between import gap_between_mm
from tests.shapes import Manifold, ball, cuboid, solid_of

CUBE = cuboid(10, 10, 10)


@pytest.mark.parametrize(
    ("shift_mm", "gap_mm"),
    [
        ((13.0, 0.0, 0.0), 3.0),
        ((12.0, 12.0, 11.0), 3.0),
        ((10.0, 0.0, 0.0), None),
        ((5.0, 5.0, 5.0), None),
        ((16.0, 0.0, 0.0), None),
    ],
)
def test_cubes_lie_apart_by_pythagoras(shift_mm: tuple[float, float, float], gap_mm: float | None) -> None:
    """3 along x; 2, 2 and 1 between corners are 3; touching, crossing and farther than the search are none."""
    other = solid_of(Manifold.cube((10, 10, 10)).translate(shift_mm))

    assert gap_between_mm(CUBE, other) == (None if gap_mm is None else pytest.approx(gap_mm))


def test_the_gap_is_the_same_from_both_sides() -> None:
    """A ball of 8 mm whose middle is 6 mm over a cube leaves 2 mm; its poles are corners of the mesh."""
    above = solid_of(ball(8.0).manifold.translate((5, 5, 16)))  # type: ignore[union-attr]

    assert gap_between_mm(CUBE, above) == pytest.approx(2.0)
    assert gap_between_mm(above, CUBE) == pytest.approx(2.0)


def test_an_open_mesh_has_no_gap() -> None:
    """Without one of its faces the cube is not sound: nothing is said of it, whichever side it stands on."""
    far = solid_of(Manifold.cube((10, 10, 10)).translate((13, 0, 0)))
    opened = replace(far, faces=np.delete(far.faces, 0, axis=0))

    assert gap_between_mm(CUBE, far) == pytest.approx(3.0)
    assert gap_between_mm(CUBE, opened) is None
    assert gap_between_mm(opened, CUBE) is None

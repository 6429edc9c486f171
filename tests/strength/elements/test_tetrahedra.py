"""Tetrahedra: the whole volume, the same every time, finer where asked, and refused where the solid is not sound."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.strength.elements.tetrahedra import EndedError, UnmeshedError, tetrahedra_of
from tests.shapes import bored_plate, cuboid

PLATE = bored_plate(30.0, 20.0, 4.0, [(15.0, 10.0, 5.0, 48)])


def test_a_mesh_fills_its_solid_and_is_the_same_every_time(capfd: pytest.CaptureFixture[str]) -> None:
    """Volume within 1 %, byte for byte the same, and the mesher says nothing on standard output."""
    once, again = tetrahedra_of(PLATE, 3.0), tetrahedra_of(PLATE, 3.0)

    assert once.volumes_mm3.sum() == pytest.approx(PLATE.volume_mm3, rel=0.01)
    assert once.nodes_mm.tobytes() == again.nodes_mm.tobytes()
    assert once.cells.tobytes() == again.cells.tobytes()
    assert capfd.readouterr().out == ""


def test_a_place_is_made_finer_where_asked() -> None:
    """More nodes about the place, and its neighbourhood alone."""
    plain, fine = (tetrahedra_of(cuboid(30.0, 10.0, 10.0), 5.0, finer) for finer in ((), [((0.0, 0.0, 0.0), 0.5)]))
    near = [int((np.linalg.norm(one.nodes_mm, axis=1) < 2.0).sum()) for one in (plain, fine)]

    assert near[1] > 10 * near[0]
    assert len(fine.nodes_mm) < 40 * len(plain.nodes_mm)


def test_a_solid_that_is_not_sound_is_refused() -> None:
    """In one sentence with its first fault."""
    with pytest.raises(UnmeshedError, match="not sound: it is open"):
        tetrahedra_of(replace(PLATE, faults=("it is open",)), 3.0)


@pytest.mark.parametrize("most_n", [300, 3000])
def test_a_mesh_of_more_than_may_be_solved_is_refused(most_n: int) -> None:
    """Counted on the surface before the inside is filled, or after: by how many unknowns, never by a clock."""
    unknowns_n = 3 * len(tetrahedra_of(PLATE, 3.0).nodes_mm)

    assert unknowns_n > 3000
    with pytest.raises(EndedError, match=f"too fine for the {most_n} unknowns"):
        tetrahedra_of(PLATE, 3.0, most_n=most_n)
    assert len(tetrahedra_of(PLATE, 3.0, most_n=unknowns_n).nodes_mm) == unknowns_n // 3

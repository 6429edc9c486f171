"""Bodies: cavities are taken away, and shared material counts once."""

from __future__ import annotations

import pytest

from planner.mesh.repair.heal import healed
from tests.mesh.repair.soups import soup_of, volume_of
from tests.shapes import Manifold, tube

Body = tuple[Manifold, bool]


CUBE = Manifold.cube((20, 20, 20), True)


CORE = Manifold.cube((10, 10, 10), True)


@pytest.mark.parametrize(
    ("bodies", "volume"),
    [
        ([(CUBE, False), (CORE, True)], 7000.0),
        ([(CUBE, True), (CORE, False)], 7000.0),
        (
            [(CUBE, False), (CORE, True), (Manifold.cube((20, 20, 20), True).translate((15, 0, 0)), False)],
            13000.0,
        ),
        ([(CUBE, False), (Manifold.cube((20, 20, 20), True).translate((10, 0, 0)), False)], 12000.0),
        ([(CUBE, False), (CORE, True), (Manifold.cube((4, 4, 4), True), False)], 7064.0),
    ],
    ids=["cavity", "all reversed", "hollow overlaps", "two overlap", "core in a cavity"],
)
def test_nested_and_overlapping_bodies_count_their_matter_once(bodies: list[Body], volume: float) -> None:
    """A cavity is taken away, also where all is inside out; shared matter counts once (closed form)."""
    found = healed(soup_of(*bodies))

    assert not found.faults
    assert volume_of(found) == pytest.approx(volume)


def test_a_reversed_ball_in_a_bore_is_no_cavity() -> None:
    """It lies inside the tube's box and outside its matter: both volumes add."""
    ring, ball = tube(30, 22, 20), Manifold.sphere(5, 48).translate((0, 0, 10))
    assert ring.manifold is not None
    found = healed(soup_of((ring.manifold, False), (ball, True)))

    assert volume_of(found) == pytest.approx(ring.volume_mm3 + ball.volume(), rel=1e-9)


def test_many_bodies_are_turned_and_united_all_the_same() -> None:
    """1,200 cubes, every second inside out, and 250 that overlap in a row: each volume by closed form."""
    cubes = [(Manifold.cube((1, 1, 1)).translate((3 * (k % 40), 3 * (k // 40), 0)), k % 2 == 0) for k in range(1200)]
    row = [(Manifold.cube((10, 10, 10)).translate((7.0 * k, 0, 0)), False) for k in range(250)]

    assert volume_of(healed(soup_of(*cubes))) == pytest.approx(1200.0)
    assert volume_of(healed(soup_of(*row))) == pytest.approx(7.0 * 249 * 100 + 1000)

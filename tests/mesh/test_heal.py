"""Healing: what is unambiguous is repaired so that the numbers are right, the rest is named."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.mesh.formats.soup import Soup
from planner.mesh.repair.heal import Healed, healed
from tests.shapes import Manifold, bored_plate, cylinder, solid_of, tube

Body = tuple[Manifold, bool]


def _soup(*bodies: tuple[Manifold, bool]) -> Soup:
    """Return bodies as one soup of loose triangles; True turns a body inside out."""
    corners = []
    for body, reversed_ in bodies:
        own = solid_of(body).corners_mm
        corners.append(own[:, ::-1] if reversed_ else own)
    all_corners = np.concatenate(corners)
    return Soup(vertices=all_corners.reshape(-1, 3), faces=np.arange(3 * len(all_corners)).reshape(-1, 3))


def _volume(found: Healed) -> float:
    """Return the signed volume of what was healed (divergence theorem)."""
    a, b, c = (found.vertices[found.faces[:, k]] for k in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6.0)


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
    found = healed(_soup(*bodies))

    assert not found.faults
    assert _volume(found) == pytest.approx(volume)


def test_a_reversed_ball_in_a_bore_is_no_cavity() -> None:
    """It lies inside the tube's box and outside its matter: both volumes add."""
    ring, ball = tube(30, 22, 20), Manifold.sphere(5, 48).translate((0, 0, 10))
    assert ring.manifold is not None
    found = healed(_soup((ring.manifold, False), (ball, True)))

    assert _volume(found) == pytest.approx(ring.volume_mm3 + ball.volume(), rel=1e-9)


def test_many_bodies_are_turned_and_united_all_the_same() -> None:
    """1,200 cubes, every second inside out, and 250 that overlap in a row: each volume by closed form."""
    cubes = [(Manifold.cube((1, 1, 1)).translate((3 * (k % 40), 3 * (k // 40), 0)), k % 2 == 0) for k in range(1200)]
    row = [(Manifold.cube((10, 10, 10)).translate((7.0 * k, 0, 0)), False) for k in range(250)]

    assert _volume(healed(_soup(*cubes))) == pytest.approx(1200.0)
    assert _volume(healed(_soup(*row))) == pytest.approx(7.0 * 249 * 100 + 1000)


@settings(max_examples=15)
@given(seed=st.integers(0, 10_000), share=st.floats(0.0, 0.5))
def test_any_faces_turned_round_are_turned_back(seed: int, share: float) -> None:
    """Whatever share of faces is flipped, the volume comes back with its sign."""
    plate = bored_plate(30, 20, 6, [(10, 10, 6, 24), (22, 10, 4, 16)])
    flip = np.random.default_rng(seed).random(plate.triangles_n) < share
    corners = np.where(flip[:, None, None], plate.corners_mm[:, ::-1], plate.corners_mm)
    found = healed(Soup(vertices=corners.reshape(-1, 3), faces=np.arange(3 * len(corners)).reshape(-1, 3)))

    assert not found.faults
    assert _volume(found) == pytest.approx(plate.volume_mm3)


@settings(max_examples=15)
@given(seed=st.integers(0, 10_000), digits=st.sampled_from([1e-6, 5e-6, 3e-5]))
def test_seams_of_rounded_corners_close(seed: int, digits: float) -> None:
    """Every triangle's corners off by some 1e-5 of the size, each its own way: the surface closes again."""
    plate = bored_plate(30, 20, 6, [(10, 10, 6, 24), (22, 10, 4, 16)])
    corners = plate.corners_mm + np.random.default_rng(seed).uniform(-digits, digits, (plate.triangles_n, 3, 3)) * 30
    found = healed(Soup(vertices=corners.reshape(-1, 3), faces=np.arange(3 * len(corners)).reshape(-1, 3)))

    assert not found.faults
    assert _volume(found) == pytest.approx(plate.volume_mm3, rel=1e-3)


def test_a_tiny_hole_is_closed_and_a_missing_lid_is_not() -> None:
    """One small triangle missing is repaired and told; a box of 50 mm without its lid stays open."""
    rod = solid_of(cylinder(10, 40, 200))
    small = int(np.argmin(rod.trimesh.area_faces))
    faces = np.delete(rod.faces, small, axis=0)
    box = solid_of(Manifold.cube((50, 50, 50)))
    lidless = box.faces[~(box.corners_mm[:, :, 2] > 49).all(axis=1)]

    closed = healed(Soup(vertices=np.array(rod.vertices_mm), faces=faces))
    left_open = healed(Soup(vertices=np.array(box.vertices_mm), faces=lidless))
    assert closed.faults == ()
    assert any("tiny holes" in line for line in closed.healed)
    assert left_open.faults == ("open at 4 edges",)


def test_edges_that_join_more_than_two_faces_are_counted() -> None:
    """Two cubes that share one edge: the sentence gives the number."""
    one, other = solid_of(Manifold.cube((10, 10, 10))), solid_of(Manifold.cube((10, 10, 10)).translate((10, 10, 0)))
    found = healed(
        Soup(
            vertices=np.vstack([one.vertices_mm, other.vertices_mm]),
            faces=np.vstack([one.faces, other.faces + len(one.vertices_mm)]),
        )
    )

    assert _volume(found) == pytest.approx(2000.0)
    assert not found.faults or "join more than two faces" in found.faults[0]


def test_points_that_nothing_uses_have_no_say_in_the_size() -> None:
    """A stray vertex far away changes nothing."""
    cube = solid_of(Manifold.cube((10, 10, 10)))
    found = healed(Soup(vertices=np.vstack([cube.vertices_mm, [[500.0, 0, 0]]]), faces=np.array(cube.faces)))

    assert np.ptp(found.vertices, axis=0) == pytest.approx([10, 10, 10])

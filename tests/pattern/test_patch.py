"""A patch knows its edges and moves along its normals."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tests.pattern.surfaces import cap, shell


def test_edges_are_closed_chains_with_the_surface_at_their_left() -> None:
    """A half cylinder has one chain, a sleeve two, a cap one; each as long as its circles and lines (Euclid)."""
    half, sleeve, dome = shell(30, 30, 100, 180), shell(30, 30, 100, 360), cap(40, 30)
    chord = 2 * 30 * math.sin(math.pi / 96) * 48

    assert [len(one.loops) for one in (half, sleeve, dome)] == [1, 2, 1]
    assert half._long_mm(half.loops[0]) == pytest.approx(2 * chord + 200)


def test_normals_look_to_the_axis() -> None:
    """The inside of a shell looks inward, so that the tests mean what they say."""
    half = shell(30, 30, 100, 180)
    middles = half.corners_mm.mean(axis=1)

    assert np.einsum("ij,ij->i", middles[:, :2], half.normals[:, :2]).max() < 0


@pytest.mark.parametrize("by_mm", [1.5, -2.0])
def test_a_moved_sphere_is_a_sphere(by_mm: float) -> None:
    """A cap seen from inside, moved toward the skin, has a radius smaller by as much (closed form), to 0.05 mm."""
    moved = cap(40, 50).offset(by_mm)
    radii = np.linalg.norm(moved.vertices_mm, axis=1)

    assert np.abs(radii - (40 - by_mm)).max() < 0.05

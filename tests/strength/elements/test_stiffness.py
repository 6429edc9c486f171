"""Stiffness by direction: engineering constants come back out, and a solid alike in all directions is Hooke's."""

from __future__ import annotations

import numpy as np
import pytest

from planner.strength.elements.stiffness import Moduli, as_tensors, frame_of, stiffness_mpa, strain_turn

PETG = Moduli(along_mpa=1900.0, across_mpa=1600.0, poisson_ratio=0.38)


@pytest.mark.parametrize("normal", [(0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.3, -0.5, 0.8)])
def test_a_pull_gives_the_modulus_of_its_direction(normal: tuple[float, float, float]) -> None:
    """Whatever the pose: 1600 MPa along the layer normal, 1900 MPa across it."""
    soft = np.linalg.inv(stiffness_mpa(PETG, normal))
    rows = frame_of(normal)
    for way, modulus in ((rows[2], 1600.0), (rows[0], 1900.0), (rows[0] + rows[1], 1900.0)):
        x, y, z = way / np.linalg.norm(way)
        pull = np.array([x * x, y * y, z * z, y * z, x * z, x * y])
        assert pull @ soft @ pull == pytest.approx(1.0 / modulus)


def test_alike_in_all_directions_is_hookes_law() -> None:
    """Lamé's constants (every textbook), in every pose."""
    alike = stiffness_mpa(Moduli(along_mpa=1000.0, across_mpa=1000.0, poisson_ratio=0.25), (1.0, 2.0, 3.0))

    assert np.diag(alike) == pytest.approx([1200.0] * 3 + [400.0] * 3)
    assert alike[0, 1] == pytest.approx(400.0)


def test_frames_are_square_and_impossible_moduli_are_refused() -> None:
    """A turn of strains keeps their trace; a solid that would give energy away is refused."""
    turn = strain_turn(frame_of((0.2, 0.4, 0.6)))

    assert turn[:3, :3].sum(axis=0) == pytest.approx([1.0, 1.0, 1.0])
    assert as_tensors(np.arange(6.0))[1, 2] == 3.0
    with pytest.raises(ValueError, match="no solid"):
        stiffness_mpa(Moduli(along_mpa=1000.0, across_mpa=2000.0, poisson_ratio=0.5), (0.0, 0.0, 1.0))

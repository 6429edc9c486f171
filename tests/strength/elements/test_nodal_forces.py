"""Loads on nodes: their resultant and moment are exact, and a pin presses half of its wall."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.strength.elements.displacements import UnsolvedError
from planner.strength.elements.nodal_forces import Press, pressed, refuse_unbalanced, surface_of
from planner.strength.elements.tetrahedra import Tetrahedra, tetrahedra_of
from tests.shapes import bored_plate

PLATE = bored_plate(30.0, 20.0, 6.0, [(10.0, 10.0, 6.0, 48)])
PIN = Press(at_mm=(10.0, 10.0, 3.0), force_n=(-50.0, 20.0, 0.0), axis=(0.0, 0.0, 1.0), radius_mm=3.0, deep_mm=6.0)
TIP = Press(at_mm=(30.0, 10.0, 3.0), force_n=(0.0, 0.0, 9.0), couple_n_mm=(30.0, -7.0, 4.0), patch_mm=3.0)


@pytest.fixture(name="cells", scope="module")
def _cells() -> Tetrahedra:
    return tetrahedra_of(PLATE, 3.0)


@pytest.mark.parametrize("press", [PIN, TIP])
def test_forces_on_nodes_have_the_resultant_and_the_moment_of_their_load(press: Press, cells: Tetrahedra) -> None:
    """Statics by hand: sums of forces and of moments about the load's place."""
    force, near = pressed(cells, [press])

    assert force.sum(axis=0) == pytest.approx(press.force_n, abs=1e-9)
    assert np.cross(cells.nodes_mm - np.array(press.at_mm), force).sum(axis=0) == pytest.approx(
        press.couple_n_mm, abs=1e-8
    )
    assert 0 < near.sum() < len(near)


def test_a_pin_presses_the_half_of_the_wall_ahead_of_it(cells: Tetrahedra) -> None:
    """Behind the pin there is at most what balances the mesh's own unevenness: a tenth of the peak."""
    force, near = pressed(cells, [PIN])
    ahead = (cells.nodes_mm - np.array(PIN.at_mm)) @ np.array(PIN.force_n)
    size = np.linalg.norm(force, axis=1)

    assert size[ahead < 0.0].max() < 0.1 * size.max()
    assert ahead[near].min() > 0.0


def test_the_surface_closes(cells: Tetrahedra) -> None:
    """Every edge of the outer sides belongs to two of them, and nodes four to six lie at the middles of edges."""
    sides = surface_of(cells)
    edges = np.sort(np.concatenate([sides[:, [0, 1]], sides[:, [1, 2]], sides[:, [0, 2]]]), axis=1)

    assert (np.unique(edges, axis=0, return_counts=True)[1] == 2).all()
    assert cells.nodes_mm[sides[:, 3:]].mean(axis=1) == pytest.approx(cells.nodes_mm[sides[:, :3]].mean(axis=1))


PUSH = Press(at_mm=(60.0, 4.0, 4.0), force_n=(0.0, 0.0, 5.0))
BACK = Press(at_mm=(0.0, 4.0, 4.0), force_n=(0.0, 0.0, -5.0))


def test_loads_that_do_not_balance_are_refused() -> None:
    """A force with nothing against it, and a force with its answer at another place."""
    for loads in ([PUSH], [PUSH, BACK]):
        with pytest.raises(UnsolvedError, match="out of balance"):
            refuse_unbalanced(loads)


def test_a_couple_holds_a_lever() -> None:
    """By hand: 5 N up at 60 mm turns by (0, -300, 0) N mm, which a couple of (0, 300, 0) at the foot holds."""
    refuse_unbalanced([PUSH, replace(BACK, couple_n_mm=(0.0, 300.0, 0.0))])

"""One mesh: several load cases at once, each as it would be alone."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.strength.elements.displacements import UnsolvedError
from planner.strength.elements.nodal_forces import Press
from planner.strength.elements.one_mesh import on_mesh
from planner.strength.elements.tetrahedra import tetrahedra_of
from tests.shapes import cuboid
from tests.strength.small_parts import STUFF

BAR = cuboid(40.0, 8.0, 8.0)
CELLS = tetrahedra_of(BAR, 4.0)
PULL = (
    Press(at_mm=(40.0, 4.0, 4.0), force_n=(100.0, 0.0, 0.0), patch_mm=2.0),
    Press(at_mm=(0.0, 4.0, 4.0), force_n=(-100.0, 0.0, 0.0), patch_mm=2.0),
)
PUSHED_BACK = tuple(replace(one, force_n=(-2.0 * one.force_n[0], 0.0, 0.0)) for one in PULL)


def test_cases_on_one_mesh_are_each_what_they_are_alone() -> None:
    """Twice the force the other way is twice the share and minus twice the stress at the same place."""
    one, other = on_mesh(BAR, CELLS, STUFF, [PULL, PUSHED_BACK], 0.45)
    (alone,) = on_mesh(BAR, CELLS, STUFF, [PUSHED_BACK], 0.45)

    assert other.share_percent == pytest.approx(2.0 * one.share_percent, rel=1e-6)
    assert other.stress_mpa == pytest.approx(-2.0 * one.stress_mpa, rel=1e-6, abs=1e-9)
    assert other.weakest_mm == one.weakest_mm == alone.weakest_mm
    assert other.share_percent == pytest.approx(alone.share_percent, rel=1e-9)
    assert np.isnan(one.skin_share_percent[one.skin_mm[:, 0] > 39.9]).any()  # a load's own patch is left out


def test_a_part_that_lies_all_near_to_its_loads_is_refused() -> None:
    """A cube of 8 mm under patches of 4 mm: nothing is left to tell."""
    cube = cuboid(8.0, 8.0, 8.0)
    loads = [replace(one, at_mm=(min(one.at_mm[0], 8.0), 4.0, 4.0), patch_mm=4.0) for one in PULL]
    with pytest.raises(UnsolvedError, match="near to where its loads enter"):
        next(on_mesh(cube, tetrahedra_of(cube, 4.0), STUFF, [loads], 0.45))

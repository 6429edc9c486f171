"""One mesh: several load cases at once, each as it would be alone."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.strength.elements.nodal_forces import Press
from planner.strength.elements.one_mesh import on_mesh
from planner.strength.elements.tetrahedra import Tetrahedra, tetrahedra_of
from tests.shapes import cuboid
from tests.strength.small_parts import STUFF

BAR = cuboid(40.0, 8.0, 8.0)
PULL = (
    Press(at_mm=(40.0, 4.0, 4.0), force_n=(100.0, 0.0, 0.0), patch_mm=2.0),
    Press(at_mm=(0.0, 4.0, 4.0), force_n=(-100.0, 0.0, 0.0), patch_mm=2.0),
)
PUSHED_BACK = tuple(replace(one, force_n=(-2.0 * one.force_n[0], 0.0, 0.0)) for one in PULL)


@pytest.fixture(name="cells", scope="module")
def _cells() -> Tetrahedra:
    return tetrahedra_of(BAR, 4.0)


def test_cases_on_one_mesh_are_each_what_they_are_alone(cells: Tetrahedra) -> None:
    """Twice the force the other way is twice the share and minus twice the stress at the same place."""
    one, other = on_mesh(cells, STUFF, [PULL, PUSHED_BACK], 0.45)
    (alone,) = on_mesh(cells, STUFF, [PUSHED_BACK], 0.45)
    assert one is not None
    assert other is not None
    assert alone is not None

    assert other.share_percent == pytest.approx(2.0 * one.share_percent, rel=1e-6)
    assert other.stress_mpa == pytest.approx(-2.0 * one.stress_mpa, rel=1e-6, abs=1e-9)
    assert other.weakest_mm == one.weakest_mm == alone.weakest_mm
    assert other.share_percent == pytest.approx(alone.share_percent, rel=1e-9)
    assert np.isnan(one.skin_share_percent[one.skin_mm[:, 0] > 39.9]).any()  # a load's own patch is left out


def test_a_case_that_presses_all_of_a_part_tells_nothing_and_the_others_do(cells: Tetrahedra) -> None:
    """A bar of 40 mm under patches of 7 mm, left out up to 21 mm from each end."""
    wide = tuple(replace(one, patch_mm=7.0) for one in PULL)
    nothing, told = on_mesh(cells, STUFF, [wide, PULL], 0.45)

    assert nothing is None
    assert told is not None
    assert told.share_percent > 0.0

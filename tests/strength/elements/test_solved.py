"""The weakest place: where a beam is a beam it is the beam's, and infill softens the core."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.strength import Strengths
from planner.strength.elements.displaced import UnsolvedError
from planner.strength.elements.pressed import Press
from planner.strength.elements.solved import Stuff, solved, zone_share
from planner.strength.elements.stiffness import Moduli
from planner.strength.elements.tetrahedra import tetrahedra_of
from tests.shapes import cuboid

STUFF = Stuff(
    moduli=Moduli(along_mpa=1900.0, across_mpa=1600.0, poisson_ratio=0.38),
    strengths=Strengths(along_mpa=40.0, across_mpa=25.0, shear_mpa=15.0),
    normal=(0.0, 0.0, 1.0),
    side_mm=1.0,
    level_mm=1.0,
    infill_share=1.0,
)
BAR = cuboid(60.0, 8.0, 8.0)


def _bent(force_n: float) -> list[Press]:
    """Return a bar bent by couples at its ends alone: the moment is the same all along."""
    return [
        Press(at_mm=(x, 4.0, 4.0), force_n=(0.0, 0.0, 0.0), couple_n_mm=(0.0, couple, 0.0), patch_mm=3.5)
        for x, couple in ((0.0, 100.0 * force_n), (60.0, -100.0 * force_n))
    ]


def test_loads_that_do_not_balance_are_refused() -> None:
    """A force with nothing against it, and a force with its answer at another place."""
    one = Press(at_mm=(60.0, 4.0, 4.0), force_n=(0.0, 0.0, 5.0))
    for loads in ([one], [one, replace(one, at_mm=(0.0, 4.0, 4.0), force_n=(0.0, 0.0, -5.0))]):
        with pytest.raises(UnsolvedError, match="out of balance"):
            solved(BAR, STUFF, loads, 0.45)


def test_a_bent_bar_is_shared_as_the_beam_formula_says() -> None:
    """M / W = 100 F / (8³ / 6), within the 15 % of the screening's contract; the figure says that it stood."""
    one = solved(BAR, STUFF, _bent(4.0), 0.45)

    assert one.share_percent == pytest.approx(100.0 * 400.0 / (8.0**3 / 6.0) / 40.0, rel=0.15)
    assert one.stands
    assert one.faces_share.shape == (len(BAR.faces),)
    assert one.shift_mm.shape == BAR.vertices_mm.shape


def test_infill_softens_the_core_and_the_skin_stays_solid() -> None:
    """Half the infill is a quarter of the stiffness (Gibson and Ashby 1997); near the surface nothing changes."""
    cells = tetrahedra_of(BAR, 2.0)
    share = zone_share(cells, replace(STUFF, infill_share=0.5))
    middle = cells.corners_mm.mean(axis=1)
    depth = np.minimum(middle, [60.0, 8.0, 8.0] - middle).min(axis=1)

    assert share[depth > 3.0].max() == pytest.approx(0.25)
    assert share.max() == 1.0
    assert (zone_share(cells, STUFF) == 1.0).all()

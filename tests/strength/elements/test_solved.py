"""The weakest place: where a beam is a beam it is the beam's, and infill softens the core."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from manifold3d import CrossSection

from planner.mesh import Solid
from planner.strength import Strengths
from planner.strength.beam.beam_pass import KNOTS, weakest
from planner.strength.beam.stuff import BeamStuff
from planner.strength.elements.case_presses import presses_of
from planner.strength.elements.displaced import UnsolvedError
from planner.strength.elements.pressed import Press
from planner.strength.elements.solved import Stuff, solved, zone_share
from planner.strength.elements.stiffness import Moduli
from planner.strength.elements.tetrahedra import tetrahedra_of
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from planner.survey import survey
from tests.shapes import cuboid, solid_of

STUFF = Stuff(
    moduli=Moduli(along_mpa=1900.0, across_mpa=1600.0, poisson_ratio=0.38),
    strengths=Strengths(along_mpa=40.0, across_mpa=25.0, shear_mpa=15.0),
    normal=(0.0, 0.0, 1.0),
    side_mm=1.0,
    level_mm=1.0,
    infill_share=1.0,
)
BAR = cuboid(60.0, 8.0, 8.0)


def _waisted() -> Solid:
    """Return a bar of 60 by 12 by 8 whose middle third is 8 wide, with slopes of one in four between."""
    outline = [
        (0, 0),
        (12, 0),
        (20, 2),
        (40, 2),
        (48, 0),
        (60, 0),
        (60, 12),
        (48, 12),
        (40, 10),
        (20, 10),
        (12, 12),
        (0, 12),
    ]
    return solid_of(CrossSection([outline]).extrude(8.0))


def test_loads_that_do_not_balance_are_refused() -> None:
    """A force with nothing against it, and a force with its answer at another place."""
    one = Press(at_mm=(60.0, 4.0, 4.0), force_n=(0.0, 0.0, 5.0))
    for loads in ([one], [one, replace(one, at_mm=(0.0, 4.0, 4.0), force_n=(0.0, 0.0, -5.0))]):
        with pytest.raises(UnsolvedError, match="out of balance"):
            solved(BAR, STUFF, loads, 0.45)


def test_where_a_beam_is_a_beam_elements_say_what_the_beam_pass_says() -> None:
    """The same load case, 100 N at 3 mm from the middle of a waisted bar: 15 % (contract), with infill, and it stands."""
    bar, printed = _waisted(), replace(STUFF, side_mm=1.35, level_mm=0.8, infill_share=0.2)
    push = PartLoad(at_mm=(60.0, 9.0, 4.0), force_n=(100.0, 0.0, 0.0))
    case = known_case([push], [Support(at_mm=(0.0, 9.0, 4.0))], "pulled beside its middle")
    beam = weakest(bar, (case,), BeamStuff(**{name: getattr(printed, name) for name in BeamStuff.__slots__}))
    one = solved(bar, printed, presses_of(case, survey(bar)), 0.45)

    assert beam is not None
    assert one.share_percent == pytest.approx(beam.share_percent[KNOTS.index(1.0)], rel=0.15)
    assert abs(one.weakest_mm[0] - 30.0) < 12.0
    assert one.weakest_mm[1] > 8.0
    assert one.stands
    assert one.faces_share.shape == (len(bar.faces),)
    assert one.shift_mm.shape == bar.vertices_mm.shape


def test_infill_softens_the_core_and_the_skin_stays_solid() -> None:
    """Half the infill is a quarter of the stiffness (Gibson and Ashby 1997); near the surface nothing changes."""
    cells = tetrahedra_of(BAR, 2.0)
    share = zone_share(cells, replace(STUFF, infill_share=0.5))
    middle = cells.corners_mm.mean(axis=1)
    depth = np.minimum(middle, [60.0, 8.0, 8.0] - middle).min(axis=1)

    assert share[depth > 3.0].max() == pytest.approx(0.25)
    assert share.max() == 1.0
    assert (zone_share(cells, STUFF) == 1.0).all()

"""The share all over a beam, against the cantilever of textbooks."""

from __future__ import annotations

import numpy as np
import pytest
from manifold3d import CrossSection

from planner.strength import Strengths
from planner.strength.beam.beam_pass import KNOTS, weakest
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.field.beam_field import beam_shares, beam_ways
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from tests.shapes import Manifold, cuboid, cylinder, solid_of

BAR = cuboid(80.0, 10.0, 8.0)
SOLID = BeamStuff(
    strengths=Strengths(along_mpa=50.0, across_mpa=25.0, shear_mpa=20.0),
    normal=(0.0, 0.0, 1.0),
    side_mm=99.0,
    level_mm=99.0,
    infill_share=1.0,
)
PUSHED = known_case(
    [PartLoad(at_mm=(80.0, 5.0, 4.0), force_n=(0.0, 60.0, 0.0))], [Support(at_mm=(10.0, 5.0, 4.0))], "60 N"
)


def test_every_place_of_a_cantilever_has_its_own_share() -> None:
    """M y / I (textbook) over 50 MPa at nine places on both sides and inside, within 1 %; zero on the middle plane."""
    ways = beam_ways(BAR, PUSHED, SOLID, 1.0)
    places = np.array([(x, y, z) for x in (20.0, 45.0, 70.0) for y, z in ((0.0, 8.0), (7.5, 0.0), (10.0, 4.0))])
    stress_mpa = 60.0 * (80.0 - places[:, 0]) * np.abs(places[:, 1] - 5.0) / (8.0 * 10.0**3 / 12.0)

    assert beam_shares(ways, SOLID, places) == pytest.approx(100.0 * stress_mpa / 50.0, rel=0.01)
    assert beam_shares(ways, SOLID, np.array([[45.0, 5.0, 8.0]]))[0] == pytest.approx(0.0, abs=0.01)


def test_beyond_the_cuts_nothing_is_told() -> None:
    """Behind the support no cut goes, so there is no figure: not zero."""
    assert np.isnan(beam_shares(beam_ways(BAR, PUSHED, SOLID, 1.0), SOLID, np.array([[2.0, 0.0, 4.0]]))).all()


def test_no_place_takes_more_than_the_beam_pass_found() -> None:
    """A hook, whose free limb carries nothing of its pull: every face is told by the same cuts as the weakest place."""
    outline = [(0, 0), (40, 0), (40, 30), (32, 30), (32, 8), (8, 8), (8, 60), (0, 60)]
    hook = solid_of(CrossSection([outline]).extrude(8.0))
    pull = PartLoad(at_mm=(36.0, 30.0, 4.0), force_n=(0.0, 40.0, 0.0))
    case = known_case([pull], [Support(at_mm=(4.0, 58.0, 4.0))], "40 N")
    most = weakest(hook, (case,), SOLID)
    assert most is not None
    shares = beam_shares(beam_ways(hook, case, SOLID, 1.0), SOLID, hook.corners_mm.reshape(-1, 3))

    assert np.isfinite(shares).mean() > 0.8
    assert np.nanmax(shares) <= 1.02 * most.share_percent[KNOTS.index(1.0)]


def test_a_wide_plate_shows_the_strip_that_takes_up_its_load() -> None:
    """The hottest face takes what the beam pass found, within 5 %; beside the strip less than a third of it."""
    plate = cuboid(20.0, 160.0, 2.0)
    push = PartLoad(at_mm=(20.0, 80.0, 2.0), force_n=(0.0, 0.0, -10.0), spread_mm=())
    case = known_case([push], [Support(at_mm=(0.0, 80.0, 1.0))], "10 N")
    most = weakest(plate, (case,), SOLID)
    assert most is not None
    ways = beam_ways(plate, case, SOLID, 1.0)
    ahead, beside = beam_shares(ways, SOLID, np.array([[0.2, 80.0, 2.0], [0.2, 120.0, 2.0]]))

    assert ahead == pytest.approx(most.share_percent[KNOTS.index(1.0)], rel=0.05)
    assert beside < ahead / 3.0


def test_the_inside_of_a_bend_shows_what_the_beam_pass_found_there() -> None:
    """Half a ring with R / h of 1, opened: Winkler's figure (a third over Navier's) at its crown, and less outside."""
    ring = (
        cylinder(24.0, 6.0, 96) - cylinder(8.0, 6.0, 96) - Manifold.cube((99.0, 99.0, 99.0)).translate((-99, -50, -9))
    )
    half = solid_of(ring)
    push = PartLoad(at_mm=(0.3, 8.0, 3.0), force_n=(0.0, 50.0, 0.0))
    case = known_case([push], [Support(at_mm=(0.3, -8.0, 3.0))], "opened")
    most = weakest(half, (case,), SOLID)
    assert most is not None
    inside, outside = beam_shares(beam_ways(half, case, SOLID, 1.0), SOLID, np.array([[4.0, 0, 3.0], [12.0, 0, 3.0]]))

    assert inside == pytest.approx(most.share_percent[KNOTS.index(1.0)], rel=0.05)
    assert outside < 0.6 * inside


def test_a_twisted_bar_shows_what_the_beam_pass_found_and_its_corners_nothing() -> None:
    """At the middle of a wide or a narrow face, within 5 %; at an outer corner nothing shears it (textbook)."""
    bar = cuboid(80.0, 24.0, 6.0)
    twist = PartLoad(at_mm=(80.0, 12.0, 3.0), force_n=(0.0, 0.0, 0.0), couple_n_mm=(500.0, 0.0, 0.0))
    case = known_case([twist], [Support(at_mm=(0.0, 12.0, 3.0))], "twisted")
    most = weakest(bar, (case,), SOLID)
    assert most is not None
    middle, side, corner = beam_shares(
        beam_ways(bar, case, SOLID, 1.0), SOLID, np.array([[40.0, 12.0, 6.0], [40.0, 0.0, 3.0], [40.0, 0.0, 6.0]])
    )
    told = most.share_percent[KNOTS.index(1.0)]

    assert max(middle, side) == pytest.approx(told, rel=0.05)
    assert corner < 0.3 * told

"""A cut through two limbs: each carries what presses it, and the bend between them is cut too."""

from __future__ import annotations

import numpy as np
import pytest

from planner.strength.beam.beam_pass import weakest
from planner.strength.beam.cut_pieces import comes_apart
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.criterion import Strengths
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from tests.shapes import Manifold, bored_plate, solid_of

SOLID = BeamStuff(
    strengths=Strengths(along_mpa=50.0, across_mpa=25.0, shear_mpa=20.0),
    normal=(0.0, 0.0, 1.0),
    side_mm=99.0,
    level_mm=99.0,
    infill_share=1.0,
)
HOOK = solid_of(
    Manifold.cube((60.0, 10.0, 6.0))
    + Manifold.cube((6.0, 30.0, 6.0)).translate((54.0, 0.0, 0.0))
    + Manifold.cube((30.0, 6.0, 6.0)).translate((30.0, 24.0, 0.0))
)


def test_the_bend_of_a_hook_is_weakest_though_no_straight_way_goes_there() -> None:
    """By hand: 20 N on the lip at x = 32: 500 N mm in the bend at x = 57, 500 / 36 + 20 / 36 = 14.4 MPa, shank 5.4."""
    case = known_case(
        [PartLoad(at_mm=(32.0, 27.0, 3.0), force_n=(0.0, -20.0, 0.0))], [Support(at_mm=(5.0, 5.0, 3.0))], ""
    )
    found = weakest(HOOK, (case,), SOLID)

    assert found is not None
    assert found.stress_mpa == pytest.approx(14.4, rel=0.05)
    assert found.at_mm[0] >= 54.0 - 1e-6
    assert 9.0 < found.at_mm[1] < 25.0


def test_two_lugs_that_a_pin_joins_share_their_load() -> None:
    """A fork pulled by a pin at its middle: each prong takes half, 60 N over 2 x 5 x 12 = 0.5 MPa beside the bore."""
    slot = Manifold.cube((40.0, 20.0, 10.0)).translate((20.0, -1.0, 5.0))
    body = bored_plate(50, 18, 20, [(44, 9, 6.0, 48)]).manifold
    assert body is not None
    fork = solid_of(body - slot)
    pulls = [PartLoad(at_mm=(44.0, 9.0, z), force_n=(30.0, 0.0, 0.0)) for z in (2.5, 17.5)]
    found = weakest(fork, (known_case(pulls, [Support(at_mm=(1.0, 9.0, 10.0))], "pulled"),), SOLID)

    assert found is not None
    assert found.stress_mpa < 1.5


@pytest.mark.parametrize("axis", [0, 1, 2])
def test_a_side_comes_apart_where_the_body_beyond_the_cut_falls_into_two(axis: int) -> None:
    """Told by the corners of the mesh as by cutting the body in two, for a hook, a bored plate and a fork, all along."""
    fork = Manifold.cube((40.0, 20.0, 10.0)) - Manifold.cube((25.0, 8.0, 20.0)).translate((15.0, 6.0, -5.0))
    for solid in (HOOK, bored_plate(50, 18, 20, [(20, 9, 6.0, 48), (40, 5, 3.0, 24)]), solid_of(fork)):
        body, heights = solid.manifold, solid.vertices_mm[:, axis]
        assert body is not None
        edges = np.concatenate([solid.faces[:, [0, 1]], solid.faces[:, [1, 2]]])
        for height in np.linspace(heights.min(), heights.max(), 23)[1:-1] + 0.013:
            halves = body.split_by_plane(tuple(np.eye(3)[axis]), float(height))

            assert comes_apart(heights, edges, float(height)) == any(len(half.decompose()) > 1 for half in halves)

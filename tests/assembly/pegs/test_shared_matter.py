"""Matter that bodies surely share: never more than they do (manifold3d's booleans), and most of what is thick."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.assembly.pegs.shared_matter import inner_points, lattice_pitch_mm
from tests.shapes import Manifold, solid_of

BODIES = {
    "block": Manifold.cube((20, 14, 9)),
    "plate with bores": Manifold.cube((40, 30, 3)) - Manifold.cylinder(9, 4, 4, 48).translate((12, 15, -3)),
    "tube": Manifold.cylinder(30, 9, 9, 64) - Manifold.cylinder(40, 7, 7, 64).translate((0, 0, -5)),
    "ball": Manifold.sphere(10, 48),
    "box": Manifold.cube((30, 30, 20)) - Manifold.cube((27, 27, 20)).translate((1.5, 1.5, 1.5)),
}


def _sure_mm3(one: Manifold, other: Manifold) -> float:
    """Return what two bodies surely share."""
    solids = [solid_of(one), solid_of(other)]
    pitch = lattice_pitch_mm(solids)
    first, second = (inner_points(solid, pitch) for solid in solids)
    return pitch**3 * first.shared_n(second)


@settings(max_examples=60, deadline=None)
@given(
    names=st.tuples(st.sampled_from(sorted(BODIES)), st.sampled_from(sorted(BODIES))),
    by=st.tuples(*[st.floats(-25, 25)] * 3),
    turn=st.tuples(*[st.sampled_from([0.0, 90.0, 17.0, 45.0])] * 3),
)
def test_bodies_share_at_least_what_is_told(
    names: tuple[str, str], by: tuple[float, float, float], turn: tuple[float, float, float]
) -> None:
    """However two bodies lie in each other."""
    one, other = BODIES[names[0]], BODIES[names[1]].rotate(turn).translate(by)
    assert _sure_mm3(one, other) <= float((one ^ other).volume())


def test_the_same_block_twice_is_told_by_points() -> None:
    """Most of it: what lies deeper than a pitch below its faces."""
    block = BODIES["block"]
    assert _sure_mm3(block, block) > 0.4 * float(block.volume())


@pytest.mark.parametrize("deep_mm", [0.05, 0.3, 0.6])
def test_a_film_is_no_matter(deep_mm: float) -> None:
    """A lid drawn into its box as a press fit is: wherever the film lies, no point of it has all its neighbours."""
    box, lid = BODIES["block"], Manifold.cube((20, 14, 4))
    for k in range(10):
        up = 0.137 * k
        assert _sure_mm3(box.translate((0, 0, up)), lid.translate((0, 0, 9 - deep_mm + up))) == 0.0


def test_of_parts_about_one_origin_points_tell_nearly_every_pair() -> None:
    """Twelve plates: a boolean a pair would take most of the time of a device of many parts."""
    plates = [solid_of(Manifold.cube((24 + k, 14 + k % 5, 4))) for k in range(12)]
    pitch = lattice_pitch_mm(plates)
    points = [inner_points(plate, pitch) for plate in plates]

    for k, one in enumerate(points):
        for other in points[:k]:
            assert pitch**3 * one.shared_n(other) > 0.02 * 24 * 14 * 4

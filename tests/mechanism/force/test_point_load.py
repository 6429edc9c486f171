"""Forces of a cord on what it touches (statics of a rope, textbook, from memory)."""

from __future__ import annotations

import math

import pytest

from planner.mechanism.cord.path.path_stop import PathStop, PointStop, WrapStop
from planner.mechanism.cord.placed_stop import stand
from planner.mechanism.cord.rubs import rubs_of
from planner.mechanism.cord.small_moves import motions_over
from planner.mechanism.cord.taut import Taut, taut
from planner.mechanism.force.friction import Friction
from planner.mechanism.force.point_load import cord_loads, moment_n_mm, resultant_n, scaled, tensions, work_n_mm
from tests.mechanism.cord.hinged import hinge

Z = (0.0, 0.0, 1.0)
PATH: list[PathStop] = [
    PointStop(copy="base", at_mm=(-50.0, 0.0, 0.0)),
    WrapStop(copy="slide", axis=Z, centre_mm=(0.0, 0.0, 0.0), drawn_mm=9.5, sense=1),
    PointStop(copy="jaw", at_mm=(-50.0, 10.0, 0.0)),
]


def laid() -> Taut:
    return taut(stand(PATH, hinge(0.0), 1.0, 1.0))


def test_a_pulley_carries_both_pulls_and_all_forces_add_up_to_none() -> None:
    """Without friction every stretch pulls alike: what it does to both its ends cancels."""
    cord = laid()
    loads = scaled(cord_loads(PATH, cord, tensions(cord, [], Friction())), 20.0)
    every = {"base", "slide", "jaw"}

    assert resultant_n(loads, every) == pytest.approx((0.0, 0.0, 0.0), abs=1e-12)
    assert moment_n_mm(loads, every, (3.0, 2.0, 1.0)) == pytest.approx((0.0, 0.0, 0.0), abs=1e-9)
    ahead, back = cord.contacts[0].ahead, cord.contacts[-1].back
    assert ahead is not None
    assert back is not None
    want = [-20.0 * (a + b) for a, b in zip(ahead, back, strict=True)]
    assert resultant_n(loads, {"slide"}) == pytest.approx(want)


def test_friction_lowers_the_pull_from_contact_to_contact() -> None:
    """Pulled at its first stop, the last one gets e^(-mu theta); dragged from its last, the other way round."""
    cord, friction = laid(), Friction(cord_ratio=0.2)
    rubs = rubs_of(PATH, cord, 1.0, 1.0)
    share = math.exp(-0.2 * rubs[0].bend_rad)

    assert tensions(cord, rubs, friction) == pytest.approx((1.0, 1.0, share, share))
    assert tensions(cord, rubs, friction, from_end=True) == pytest.approx((share, share, 1.0, 1.0))


def test_the_work_of_a_cord_is_its_pull_times_what_it_shortens() -> None:
    """For a turn of the last stop's copy: - T dL/dtheta, with the length differentiated apart."""
    (motion,) = motions_over(hinge, [0.0])
    cord = laid()
    loads = cord_loads(PATH, cord, tensions(cord, [], Friction()))
    turned = [taut(stand(PATH, hinge(deg) | {"slide": hinge(0.0)["slide"]}, 1.0, 1.0)).length_mm for deg in (-0.1, 0.1)]
    on_jaw = [load for load in loads if load.copy == "jaw"]

    assert work_n_mm(on_jaw, motion, 1.0) == pytest.approx(-(turned[1] - turned[0]) / math.radians(0.2), abs=1e-4)

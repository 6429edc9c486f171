"""What acts on a driven joint."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from planner.mechanism.cord.path.path_stop import PointStop
from planner.mechanism.force.balance import Balance
from planner.mechanism.force.driven_joint import DrivenJoint, Mass, Way
from planner.mechanism.force.elastic import Elastic
from planner.mechanism.force.friction import Friction
from tests.mechanism.force.jaw import DRUM, EYE, HAND, HOOK, TIED, jaw


def at(joint: DrivenJoint, k: int, friction: Friction, way: Way = "closing", *, weighs: bool = False) -> Balance:
    """Return a joint's balance, which leads no loop."""
    found = joint.balance(k, friction, way, weighs=weighs)
    assert isinstance(found, Balance)
    return found


@pytest.mark.parametrize("factor", [0.8, 1.0, 1.4])
def test_moments_of_pull_and_grip_are_their_arms(factor: float) -> None:
    """On a drum the pull has its radius at size and half the cord, the grip its 60 mm at size."""
    joint = jaw((HAND, EYE, DRUM, TIED), factor=factor)
    balance = at(joint, 4, Friction())

    assert joint.closing == -1
    assert balance.pull_mm == pytest.approx(14.0 * factor + 0.5, abs=1e-5)
    assert balance.grip_mm == pytest.approx(60.0 * factor, abs=1e-5)


def test_a_hook_pulls_with_minus_dl_dtheta_less_what_its_eye_takes() -> None:
    """Statics on the jaw agree with the derivative of the length, times e^(-mu theta) of the eye."""
    joint = jaw()
    for k in (0, 10, 20):
        bend = joint.pull.run.rubs[k][0].bend_rad
        plain, rubbed = at(joint, k, Friction()), at(joint, k, Friction(cord_ratio=0.2))

        assert plain.pull_mm == pytest.approx(joint.pull.run.arm_mm[k], abs=1e-5)
        assert rubbed.pull_mm == pytest.approx(plain.pull_mm * math.exp(-0.2 * bend), abs=1e-5)


def test_an_elastic_opens_and_friction_turns_with_the_way() -> None:
    """Its moment is force times arm; over an eye it holds back harder while the jaw closes than it opens it."""
    way = (PointStop(copy="base", at_mm=(-40.0, 30.0, 0.0)), PointStop(copy="base", at_mm=(-20.0, 10.0, 0.0)))
    joint = jaw(
        elastics=(((*way, PointStop(copy="jaw", at_mm=(0.0, 10.0, 0.0))), Elastic(full_n=5.0, rate_n_per_mm=0.0)),)
    )
    band = joint.elastics[0].run
    friction = Friction(cord_ratio=0.3)
    share = math.exp(0.3 * band.rubs[0][0].bend_rad)
    plain = at(joint, 0, Friction()).rest_n_mm

    assert plain == pytest.approx(5.0 * band.arm_mm[0], abs=1e-5)  # it shortens as the angle grows: it opens
    assert plain < 0.0
    assert at(joint, 0, friction).rest_n_mm == pytest.approx(plain * share, abs=1e-5)
    assert at(joint, 0, friction, "opening").rest_n_mm == pytest.approx(plain / share, abs=1e-5)


def test_the_weight_counts_where_it_hinders_most_or_where_gravity_points() -> None:
    """40 g at 30 mm: 0.392 N x 30 mm against either way; with gravity along the arm it has no moment."""
    joint = jaw(masses=(Mass(copy="jaw", at_mm=(30.0, 0.0, 0.0), mass_g=40.0),))
    moment = 0.040 * 9.80665 * 30.0

    assert at(joint, 0, Friction(), weighs=True).rest_n_mm == pytest.approx(-moment, abs=1e-5)
    assert at(joint, 0, Friction(), "opening", weighs=True).rest_n_mm == pytest.approx(moment, abs=1e-5)
    assert at(joint, 0, Friction()).rest_n_mm == 0.0
    along = replace(joint, down=(1.0, 0.0, 0.0))
    assert at(along, 0, Friction(), weighs=True).rest_n_mm == pytest.approx(0.0, abs=1e-5)


def test_a_stated_direction_of_the_load_keeps_its_slant() -> None:
    """At 30 degrees to the motion only its cosine counts, and it is turned against the way that the jaw closes."""
    slanted = replace(
        jaw((HAND, EYE, HOOK)), tip_way=(math.sin(math.radians(30.0)), -math.cos(math.radians(30.0)), 0.0)
    )

    assert at(slanted, 0, Friction()).grip_mm == pytest.approx(60.0 * math.cos(math.radians(30.0)), abs=1e-5)

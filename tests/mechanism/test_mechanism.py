"""A mechanism: copies in place, joints by name, and where all stands when joints have moved; by closed forms."""

from __future__ import annotations

import math

import pytest

from planner.assembly import Claim, claims_of
from planner.job import Job
from planner.mechanism.mechanism import mechanism_of, places_of
from planner.mesh import Solid
from planner.survey import Survey, survey
from tests.conftest import MakeJob
from tests.mechanism.invented import DEVICE_ZERO, four_bars, rocker_deg
from tests.mechanism.places.test_put_together import bored, fork, job_text, link
from tests.shapes import Manifold, solid_of

CRANK_DEG = 25.0


def _parsed(
    make_job: MakeJob, text: str, **solids: Solid
) -> tuple[Job, dict[str, Solid], dict[str, Survey], tuple[Claim, ...]]:
    """Return what a mechanism is found from."""
    job = make_job(text, **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    return job, solids, surveys, claims_of(job, surveys).claims


def test_a_joint_has_a_name_and_no_other() -> None:
    """Asked for by its name; a name that no joint has is an error."""
    mechanism = DEVICE_ZERO.mechanism()

    assert mechanism.joint("base to arm") is mechanism.joints[0]
    with pytest.raises(KeyError):
        mechanism.joint("arm to base")


def test_what_is_not_named_stays_as_drawn() -> None:
    """By 90 degrees about z, the arm's point (30, 0) comes to (0, 30); the base stays, and with nothing named all does."""
    mechanism = DEVICE_ZERO.mechanism()
    frames = mechanism.frames_at({"base to arm": 90.0})

    assert frames["arm"].point((30.0, 0.0, 2.0)) == pytest.approx((0.0, 30.0, 2.0))
    assert frames["base"].still
    assert all(frame.still for frame in mechanism.frames_at({}).values())


def test_a_closed_loop_takes_its_followers_along() -> None:
    """A four-bar's crank turned by 25 degrees: its rocker goes as Freudenstein's equation says (1955, from memory)."""
    bars = (20.0, 62.0, 45.0, 70.0)
    mechanism = next(four_bars()).mechanism()
    wanted = rocker_deg(bars, 60.0 + CRANK_DEG) - rocker_deg(bars, 60.0)

    assert mechanism.values_at({"base to crank": CRANK_DEG})["base to rocker"] == pytest.approx(wanted, abs=1e-6)
    frames = mechanism.frames_at({"base to crank": CRANK_DEG})
    drawn = math.radians(60.0)
    pin = (20.0 * math.cos(drawn), 20.0 * math.sin(drawn), 0.0)
    assert frames["crank"].point(pin) == pytest.approx(frames["coupler"].point(pin), abs=1e-6)


def test_where_nothing_moves_there_are_places_and_no_mechanism(make_job: MakeJob) -> None:
    """Two plates clamped by two screws: both stand as drawn, and nothing turns."""
    plates = {
        name: solid_of(bored(Manifold.cube((40, 20, 5)).translate((0, 0, z)), (8, 10), (32, 10), diameter=3.4))
        for name, z in (("low", 0.0), ("top", 5.0))
    }
    text = job_text(dict.fromkeys(plates, 1))
    text += '[[hardware]]\nname = "screw"\nkind = "machine-screw"\ndiameter_mm = 3.0\nbore_mm = 3.4\ncount = 2\n'
    parsed = _parsed(make_job, text + 'joins = ["low", "top"]\n', **plates)

    assert mechanism_of(*parsed) is None
    assert places_of(*parsed).how == {"low": "drawn", "top": "drawn"}


def test_an_angle_that_nobody_has_drawn_is_told_as_unknown(make_job: MakeJob) -> None:
    """A jaw put into a fork may stand at any angle: its joint's zero is not known; with its place stated it is."""
    solids = {"deck": solid_of(fork((0, 14))), "jaw": solid_of(bored(link(40.0).translate((0, 0, 50)), (0, 0)))}
    text = job_text({"deck": 1, "jaw": 1}, ("deck", "jaw"))
    stated = '[[place]]\npart = "jaw"\nat_mm = [0, 14, -49.5]\n'
    known = {}
    for more in ("", stated):
        mechanism = mechanism_of(*_parsed(make_job, text + more, **solids))
        assert mechanism is not None
        known[more] = mechanism.joint("deck to jaw").zero_known

    assert known == {"": False, stated: True}

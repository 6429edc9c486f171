"""Copies put to their places: against points moved by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.assembly import ways_of
from planner.assembly.claim import Claim
from planner.assembly.copies_at_places import stood
from planner.job import Hardware, Job, PartPlace
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, bored_plate, solid_of

PLATE = bored_plate(40, 20, 6, [(30, 10, 3.4, 48)])
LID = solid_of(Manifold.cube((10.0, 10.0, 4.0)))
SCREW = Hardware(name="screw", kind="machine-screw", diameter_mm=3.0, joins=("plate",), fit="sliding")
CLAIMS = [Claim(part="plate", bore=bore, hardware=SCREW, fit="sliding") for bore in survey(PLATE).bores]
TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n'
    '[[part]]\nname = "plate"\nmesh = "plate.stl"\nduty = "load"\ncount = 2\n'
    '[[part]]\nname = "lid"\nmesh = "lid.stl"\nduty = "cover"\n'
)
PLACES = (
    PartPlace(part="plate"),
    PartPlace(part="plate#2", at_mm=(100.0, 0.0, 0.0), turn=(0.0, 0.0, 2.0, 90.0)),
    PartPlace(part="lid", at_mm=(85.0, 25.0, 6.0)),
)


@pytest.fixture(name="job")
def _job(make_job: MakeJob) -> Job:
    """Return a job of two plates and a lid, all of them in a place."""
    return replace(make_job(TEXT, plate=PLATE, lid=LID), hardware=(SCREW,), places=PLACES)


def test_bores_and_bodies_go_where_the_place_says(job: Job) -> None:
    """A bore at x 30, y 10 turned a quarter about z and moved by 100 lies at x 90, y 30; the plate beside it."""
    there = stood(job, {"plate": PLATE, "lid": LID}, CLAIMS)

    assert there.whole == {"plate", "lid"}
    assert [bore.centre_mm for bore in there.claimed("screw")] == [
        pytest.approx((30.0, 10.0, 3.0), abs=1e-6),
        pytest.approx((90.0, 30.0, 3.0), abs=1e-6),
    ]
    assert there.body["plate#2"].bounding_box() == pytest.approx((80.0, 0.0, 0.0, 100.0, 40.0, 6.0), abs=1e-6)


def test_every_copy_has_its_own_way(job: Job) -> None:
    """The lid stands over the second plate's bore, and not over the first one's."""
    way = ways_of(job, {"plate": PLATE, "lid": LID}, CLAIMS)["screw"]

    assert not way.unknown
    assert sorted(sorted(map(sorted, ends)) for ends in way.axes) == [[[], []], [[], ["lid"]]]


def test_a_copy_without_a_place_leaves_its_part_unknown(job: Job) -> None:
    """One of two plates stands nowhere: nothing is claimed of either."""
    some = replace(job, places=PLACES[1:])

    assert stood(some, {"plate": PLATE, "lid": LID}, CLAIMS).whole == {"lid"}
    assert "not known" in ways_of(some, {"plate": PLATE, "lid": LID}, CLAIMS)["screw"].unknown


def test_a_part_of_its_own_size_is_smaller_in_a_device_that_grows(job: Job) -> None:
    """At 200 % a lid that keeps its 10 mm is 5 mm in the drawn frame, its origin where the place says."""
    own = replace(job, parts=(job.parts[0], replace(job.parts[1], scale_percent=100.0)))
    box = stood(own, {"plate": PLATE, "lid": LID}, CLAIMS, 2.0).body["lid"].bounding_box()

    assert box == pytest.approx((85.0, 25.0, 6.0, 90.0, 30.0, 8.0), abs=1e-6)

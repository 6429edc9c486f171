"""Sliding joints: along a slot that pins lie in, and along faces that guide; how far, by the drawing."""

from __future__ import annotations

import pytest

from planner.assembly import claims_of
from planner.job import Job
from planner.mechanism import Mechanism, mechanism_of, ranges_of
from planner.mesh import Solid
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

SLOT, PIN, APART = 40.0, 4.0, 12.0
HEAD = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "rail"\nmesh = "rail.stl"\n[[part]]\nname = "slider"\nmesh = "slider.stl"\n'
PINS = '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = 4.0\nbore_mm = 4.1\nfit = "held"\njoins = ["slider", "rail"]\ncount = 2\n'
PLACES = '[[place]]\npart = "rail"\n[[place]]\npart = "slider"\n'
SLIDES = '[[joint]]\nbetween = ["rail", "slider"]\nhow = "slides"\nname = "way"\n'


def _slotted(pins: tuple[float, ...]) -> dict[str, Solid]:
    """Return a plate with a slot 40 mm long and 4.4 wide, and a slider on it with pins that lie in the slot."""
    half, wide = SLOT / 2 - 2.2, 4.4
    slot = Manifold.cube((2 * half, wide, 20)).translate((-half, -wide / 2, -10))
    for x in (-half, half):
        slot += cylinder(wide, 20, 64).translate((x, 0, -10))
    slider = Manifold.cube((30, 16, 5)).translate((-15, -8, 5.4))
    for x in pins:
        slider -= cylinder(4.1, 20, 48).translate((x, 0, 0))
    rail = Manifold.cube((80, 20, 5)).translate((-40, -10, 0)) - slot
    return {"rail": solid_of(rail.rotate((0, 0, 30))), "slider": solid_of(slider.rotate((0, 0, 30)))}


def _mechanism(make_job: MakeJob, text: str, solids: dict[str, Solid]) -> tuple[Job, Mechanism | None]:
    """Return a job and its mechanism."""
    job = make_job(text, **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    return job, mechanism_of(job, solids, surveys, claims_of(job, surveys).claims)


def test_two_pins_in_a_slot_slide_until_a_pin_meets_its_end(make_job: MakeJob) -> None:
    """The way is the slot's; it goes half the slot less half the pins' distance and half a pin, either way."""
    solids = _slotted((-APART / 2, APART / 2))
    job, found = _mechanism(make_job, HEAD + PINS + PLACES, solids)

    assert found is not None
    (joint,) = found.joints
    assert (joint.kind, joint.parts, joint.why) == ("slides", ("rail", "slider"), "along the slot of rail")
    assert joint.axis == pytest.approx((0.866, 0.5, 0.0), abs=1e-3)
    free = ranges_of(job, solids, found).of(joint.name)
    way = SLOT / 2 - APART / 2 - PIN / 2
    assert free.free_deg == pytest.approx((-way, way), abs=0.1)
    assert [stop.parts for stop in free.stops] == [("rail", "pin")] * 2


def test_one_pin_in_a_slot_is_asked_about(make_job: MakeJob) -> None:
    """It may turn as well: nothing is taken for granted and "nothing moves" is no answer; a statement settles it."""
    solids = _slotted((0.0,))
    asked = _mechanism(make_job, HEAD + PINS + PLACES, solids)[1]
    assert asked is not None
    assert not asked.joints
    assert "a pin of slider lies in a slot of rail" in asked.unsolved[0]

    found = _mechanism(make_job, HEAD + PINS + SLIDES, solids)[1]
    assert found is not None
    assert [(joint.name, joint.why) for joint in found.joints] == [("way", "along the slot of rail")]


def test_what_is_glued_is_asked_nothing_about_its_slot(make_job: MakeJob) -> None:
    """A pin in a slot of what is glued to it moves nowhere."""
    fast = '[[joint]]\nbetween = ["rail", "slider"]\nhow = "glued"\n'
    assert _mechanism(make_job, HEAD + PINS + PLACES + fast, _slotted((0.0,)))[1] is None


def test_screws_clamped_in_a_slot_hold(make_job: MakeJob) -> None:
    """Two machine screws with plain nuts in a slot are an adjustment, and nothing moves."""
    screws = PINS.replace("dowel-pin", "machine-screw").replace('"held"', '"sliding"\nnut = "plain"')

    assert _mechanism(make_job, HEAD + screws + PLACES, _slotted((-APART / 2, APART / 2)))[1] is None


def test_faces_that_guide_show_the_way(make_job: MakeJob) -> None:
    """A rail in a groove slides along it, whichever way the device lies, and stops at the groove's closed end."""
    groove = Manifold.cube((60, 30, 12)).translate((-30, -15, 0)) - Manifold.cube((70, 20.6, 12)).translate(
        (-20, -10.3, 5)
    )
    lip = Manifold.cube((60, 4, 2)).translate((-30, 9, 10)) + Manifold.cube((60, 4, 2)).translate((-30, -13, 10))
    slider = Manifold.cube((20, 20, 4.4)).translate((-5, -10, 5.3))
    solids = {"rail": solid_of((groove + lip).rotate((20, 30, 0))), "slider": solid_of(slider.rotate((20, 30, 0)))}
    job, found = _mechanism(make_job, HEAD + SLIDES, solids)

    assert found is not None
    (joint,) = found.joints
    assert joint.why == "along the faces that guide it"
    assert joint.axis == pytest.approx((0.866, 0.0, -0.5), abs=1e-3)
    free = ranges_of(job, solids, found).of("way")
    assert free.free_deg[0] == pytest.approx(-15.0, abs=0.1)
    assert free.free_deg[1] is None


def test_a_slider_that_nothing_guides_is_unsolved(make_job: MakeJob) -> None:
    """A cube far from a plate, stated to slide: told, not guessed."""
    solids = {
        "rail": solid_of(Manifold.cube((20, 20, 5))),
        "slider": solid_of(Manifold.cube((5, 5, 5)).translate((0, 0, 30))),
    }
    found = _mechanism(make_job, HEAD + SLIDES + PLACES, solids)[1]

    assert found is not None
    assert found.unsolved == ("way: stated to slide, but neither a slot nor faces that guide it show the direction",)

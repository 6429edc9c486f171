"""Slides that no [[joint]] states: one pin in a slot between rails, and a slider-crank's block in its groove."""

from __future__ import annotations

import math

import pytest

from planner.assembly import claims_of
from planner.finding import Verdict
from planner.job import Job
from planner.mechanism import Mechanism, mechanism_of, move_rules, movement_of, ranges_of
from planner.mechanism.joints.moving_joint import GUIDED
from planner.mesh import Solid
from planner.survey import Survey, survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

BORE, THICK, LEVEL = 5.4, 6.0, 6.5
CRANK, ROD, DEG = 15.0, 55.0, 50.0
"""Crank and rod in mm, and the crank's drawn angle."""


def _block(x: float, y: float, wide: float, deep: float, z: float, high: float) -> Manifold:
    """Return a block from its lowest corner on."""
    return Manifold.cube((wide, deep, high)).translate((x, y, z))


def _bored(body: Manifold, *at: tuple[float, float]) -> Manifold:
    """Return a body with upright bores."""
    for place in at:
        body -= cylinder(BORE, 60.0, 48).translate((*place, -20.0))
    return body


def _text(parts: tuple[str, ...], pins: tuple[tuple[str, str], ...], more: str = "") -> str:
    """Return a job of parts on pins."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n'
    text += "".join(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\n' for name in parts)
    for n, (one, other) in enumerate(pins):
        text += f'[[hardware]]\nname = "pin{n}"\nkind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = {BORE}\n'
        text += f'fit = "turning"\njoins = ["{one}", "{other}"]\nstack_mm = 12.5\n'
    return text + more


def _mechanism(
    make_job: MakeJob, text: str, solids: dict[str, Solid], known: dict[str, Survey] | None = None
) -> tuple[Job, Mechanism]:
    """Return a job and its mechanism."""
    job = make_job(text, **solids)
    surveys = known or {name: survey(solid) for name, solid in solids.items()}
    found = mechanism_of(job, solids, surveys, claims_of(job, surveys).claims)
    assert found is not None
    return job, found


def _slot(follower: Manifold) -> dict[str, Solid]:
    """Return a plate with a slot 24 mm long between its ends' middles and two rails, and what lies between these."""
    slot = _block(-12, -BORE / 2, 24, BORE, -1, THICK + 2) + cylinder(BORE, 8, 64).translate((-12, 0, -1))
    slot += cylinder(BORE, 8, 64).translate((12, 0, -1))
    plate = _block(-30, -15, 60, 30, 0, THICK) - slot
    for y in (8.4, -12.4):
        plate += _block(-30, y, 60, 4, THICK - 0.1, LEVEL + 0.1)
    return {"plate": solid_of(plate), "follower": solid_of(_bored(follower, (0, 0)))}


def test_a_pin_in_a_slot_between_rails_slides_along_it(make_job: MakeJob) -> None:
    """Drawn in place and nothing stated: it goes half the slot of 29.4 mm less half the pin of 5 mm, either way."""
    solids = _slot(_block(-8, -8, 16, 16, LEVEL, THICK))
    job, found = _mechanism(make_job, _text(("plate", "follower"), (("plate", "follower"),)), solids)

    (joint,) = found.joints
    assert (joint.kind, joint.why) == ("slides", GUIDED)
    assert not found.unsolved
    assert "is taken to slide on plate" in found.notes[0]
    assert ranges_of(job, solids, found).of(joint.name).free_deg == pytest.approx((-12.2, 12.2), abs=0.1)


def test_a_disc_on_a_pin_in_a_slot_may_turn_between_its_rails(make_job: MakeJob) -> None:
    """A round follower slides and turns: that is no slide, and it is asked about."""
    disc = cylinder(16.0, THICK, 96).translate((0, 0, LEVEL))
    _, found = _mechanism(make_job, _text(("plate", "follower"), (("plate", "follower"),)), _slot(disc))

    assert not found.joints
    assert found.unsolved[0].startswith("plate to follower: a pin of follower lies in a slot of plate")


def _bar(one: tuple[float, float], other: tuple[float, float], level: int, *, both: bool = True) -> Manifold:
    """Return a bar 9 mm wide between two points, bored there."""
    long = math.dist(one, other)
    deg = math.degrees(math.atan2(other[1] - one[1], other[0] - one[0]))
    body = _block(0, -4.5, long, 9, 0, THICK) + cylinder(9, THICK, 48) + cylinder(9, THICK, 48).translate((long, 0, 0))
    body = body.rotate((0, 0, deg)).translate((*one, level * LEVEL))
    return _bored(body, one, *((other,) if both else ()))


@pytest.fixture(name="slider_crank", scope="module")
def _slider_crank() -> tuple[dict[str, Solid], dict[str, Survey]]:
    """Return a slider-crank whose block runs between two rails, measured once."""
    a = CRANK * math.cos(math.radians(DEG)), CRANK * math.sin(math.radians(DEG))
    x = a[0] + math.sqrt(ROD**2 - a[1] ** 2)
    base = _bored(_block(-25, -14, 130, 28, 0, THICK), (0, 0))
    for y in (8.4, -13.4):
        base += _block(x - 25, y, 50, 5, THICK - 0.1, LEVEL + 0.1)
    slider = _bored(_block(x - 10, -8, 20, 16, LEVEL, THICK), (x, 0))
    bodies = {"base": base, "crank": _bar((0, 0), a, 1), "rod": _bar(a, (x, 0), 2), "slider": slider}
    solids = {name: solid_of(body, name) for name, body in bodies.items()}
    return solids, {name: survey(solid) for name, solid in solids.items()}


CHAIN = (("base", "crank"), ("crank", "rod"), ("slider", "rod"))


def test_a_crank_drives_its_slider_along_the_rails_that_nobody_states(
    make_job: MakeJob, slider_crank: tuple[dict[str, Solid], dict[str, Survey]]
) -> None:
    """Closed form: x = r cos t + sqrt(l² - r² sin² t), so from l - r to l + r, and the rod leans by asin(r sin t / l)."""
    solids, surveys = slider_crank
    job, found = _mechanism(make_job, _text(tuple(solids), CHAIN), solids, surveys)
    ranges = ranges_of(job, solids, found)

    assert found.joint("base to slider").why == GUIDED
    assert ranges.of("base to crank").free_deg == (None, None)
    drawn = CRANK * math.cos(math.radians(DEG)) + math.sqrt(ROD**2 - (CRANK * math.sin(math.radians(DEG))) ** 2)
    for deg in (-120.0, 35.0, 200.0):
        sines = (CRANK * math.sin(math.radians(at)) / ROD for at in (DEG, DEG + deg))
        before, after = (math.degrees(math.asin(sine)) for sine in sines)
        lean = found.values_at({"base to crank": deg})["slider to rod"]
        assert abs(lean) == pytest.approx(abs(before - after), abs=0.05)
    free = ROD - CRANK - drawn, ROD + CRANK - drawn
    assert ranges.of("base to slider").free_deg == pytest.approx(free, abs=0.1)


@pytest.mark.parametrize(("low", "high"), [(-40, 10), (-1, 1)])
def test_what_only_rails_show_is_no_ground_for_a_no_nor_for_a_go(
    make_job: MakeJob, slider_crank: tuple[dict[str, Solid], dict[str, Survey]], low: int, high: int
) -> None:
    """The rod ought to go farther than the chain lets it, or less far: a hold that asks whether the block slides."""
    solids, surveys = slider_crank
    needs = f'[[joint]]\nbetween = ["slider", "rod"]\nhow = "turns"\nneeds_deg = [{low}, {high}]\n'
    job = make_job(_text(tuple(solids), CHAIN, needs), **solids)
    moving = movement_of(job, solids, surveys, claims_of(job, surveys).claims, {})
    assert moving is not None
    (found,) = [one for rule in move_rules(job, moving) if (one := rule.at(1.0)).feature == "slider to rod"]

    assert found.verdict is Verdict.HOLD
    assert found.question == "Does slider slide on base, and turn nowhere?"


def test_a_crank_in_the_slot_of_a_yoke_is_asked_about_and_not_refused(make_job: MakeJob) -> None:
    """The crank's pin slides and turns in the slot, which is no joint here: what it meets there is a question."""
    x, y = 12.0 * math.cos(1.0), 12.0 * math.sin(1.0)
    slot = _block(x - BORE / 2, -16, BORE, 32, 0, 40) + cylinder(BORE, 40, 64).translate((x, -16, 0))
    slot += cylinder(BORE, 40, 64).translate((x, 16, 0))
    bodies = {
        "base": _bored(_block(-40, -30, 100, 60, 0, THICK), (0, 0)),
        "crank": _bored(cylinder(34, THICK, 96).translate((0, 0, LEVEL)), (0, 0), (x, y)),
        "yoke": _block(x - 8, -24, 16, 48, 2 * LEVEL, THICK) - slot,
    }
    solids = {name: solid_of(body, name) for name, body in bodies.items()}
    needs = '[[joint]]\nbetween = ["base", "crank"]\nhow = "turns"\nneeds_deg = [-30, 30]\n'
    job = make_job(_text(tuple(solids), (("base", "crank"), ("crank", "yoke")), needs), **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    moving = movement_of(job, solids, surveys, claims_of(job, surveys).claims, {})
    assert moving is not None
    found = {one.feature: one for rule in move_rules(job, moving) if (one := rule.at(1.0))}

    assert {one.verdict for one in found.values()} == {Verdict.HOLD}
    assert found["base to crank"].question == "How does the pin of crank move in the slot of yoke?"


def test_both_sliders_of_a_trammel_are_guided_by_the_plate_under_them(make_job: MakeJob) -> None:
    """A rod of 30 mm on two blocks in crossed grooves, of which nobody says that they slide: (30 cos t, 30 sin t)."""
    plate = _block(-50, -50, 100, 100, 0, 12)
    for wide, deep in ((120, 10.8), (10.8, 120)):
        plate -= _block(-wide / 2, -deep / 2, wide, deep, 6, 20)
    one, other = (30 * math.cos(math.radians(30)), 0.0), (0.0, 15.0)
    bodies = {
        "plate": plate,
        "block": _bored(_block(one[0] - 6, -5, 12, 10, 6.3, 6), one),
        "stone": _bored(_block(-5, other[1] - 6, 10, 12, 6.3, 6), other),
        "rod": _bar(other, one, 2),
    }
    solids = {name: solid_of(body, name) for name, body in bodies.items()}
    text = _text(tuple(bodies), (("block", "rod"), ("stone", "rod")))
    _, found = _mechanism(make_job, text + '[[place]]\npart = "plate"\nat_mm = [0.0, 0.0, 0.0]\n', solids)

    assert {joint.why for joint in found.joints if joint.kind == "slides"} == {GUIDED}
    assert len(found.loops) == 1
    for deg in (-100.0, 40.0, 170.0):
        at = found.values_at({"block to rod": deg})
        t = math.radians(30.0 - deg)
        assert {round(at["plate to block"] + one[0], 2), round(at["plate to stone"] + other[1], 2)} in (
            {round(30 * math.cos(t), 2), round(30 * math.sin(t), 2)},
            {round(30 * math.cos(2 * math.radians(30) - t), 2), round(30 * math.sin(2 * math.radians(30) - t), 2)},
        )

"""A crank's pin in a slot: what follows from the drawing alone, against closed forms of textbook mechanisms."""

from __future__ import annotations

import math
from collections.abc import Iterable

import pytest

from planner.assembly import claims_of
from planner.mechanism import Mechanism, mechanism_of, ranges_of
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

BORE, HIGH, LEVEL, PIVOT = 5.4, 6.0, 6.5, 40.0
RADIUS, DRAWN_DEG = 15.0, 40.0
PINS = (("base", "crank"), ("crank", "yoke"))


def _bored(body: Manifold, *at: tuple[float, float]) -> Manifold:
    """Return a body with upright bores."""
    for place in at:
        body -= cylinder(BORE, 80.0, 48).translate((*place, -20.0))
    return body


def _block(x: float, y: float, wide: float, deep: float, z: float, high: float) -> Manifold:
    """Return a block from its lowest corner on."""
    return Manifold.cube((wide, deep, high)).translate((x, y, z))


def _slot(long: float) -> Manifold:
    """Return what a slot along y takes away, its ends' middles this far apart."""
    ends = [cylinder(BORE, 80.0, 64).translate((0, sense * long / 2, 0)) for sense in (-1, 1)]
    return _block(-BORE / 2, -long / 2, BORE, long, -40.0, 80.0) + ends[0] + ends[1]


def _text(names: Iterable[str], pins: tuple[tuple[str, str], ...]) -> str:
    """Return a job of parts on pins of 5 mm."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n'
    text += "".join(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\n' for name in names)
    for n, (one, other) in enumerate(pins):
        text += f'[[hardware]]\nname = "pin{n}"\nkind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = {BORE}\n'
        text += f'fit = "turning"\njoins = ["{one}", "{other}"]\nstack_mm = 12.5\n'
    return text


def _found(make_job: MakeJob, bodies: dict[str, Manifold], pins: tuple[tuple[str, str], ...], more: str) -> Mechanism:
    """Return the mechanism of parts on pins of 5 mm; nothing of it is unsolved, and a base's crank goes all round."""
    solids = {name: solid_of(body, name) for name, body in bodies.items()}
    job = make_job(_text(bodies, pins) + more, **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    found = mechanism_of(job, solids, surveys, claims_of(job, surveys).claims)
    assert found is not None
    assert not found.unsolved
    if "crank" in bodies:
        assert ranges_of(job, solids, found).of("base to crank").free_deg == (None, None)
    return found


def test_a_yoke_goes_by_the_cosine_of_its_crank(make_job: MakeJob) -> None:
    """x = r cos t, and the pin goes along the slot by r sin t (textbook); only rails guide the yoke, none holds it down."""
    x, y = RADIUS * math.cos(math.radians(DRAWN_DEG)), RADIUS * math.sin(math.radians(DRAWN_DEG))
    base = _bored(_block(-60, -45, 120, 90, 0, HIGH), (0, 0))
    for low in (30.4, -38.4):
        base += _block(-60, low, 120, 8, HIGH - 0.1, 3 * LEVEL)
    bodies = {
        "base": base,
        "crank": _bored(cylinder(40.0, HIGH, 64).translate((0, 0, LEVEL)), (0, 0), (x, y)),
        "yoke": _block(x - 9, -30, 18, 60, 2 * LEVEL, HIGH) - _slot(42.0).translate((x, 0, 0)),
    }
    drives = '[[joint]]\nbetween = ["base", "crank"]\nhow = "turns"\n'
    slides = '[[joint]]\nbetween = ["base", "yoke"]\nhow = "slides"\n'
    found = _found(make_job, bodies, PINS, drives + slides)

    assert found.joint("yoke to crank").about == pytest.approx((0.0, 0.0, 1.0))
    for deg in (-170.0, -60.0, 50.0, 139.0, 250.0):
        at = found.values_at({"base to crank": deg})
        sine, cosine = (RADIUS * way(math.radians(DRAWN_DEG + deg)) for way in (math.sin, math.cos))
        assert at["base to yoke"] == pytest.approx(cosine - x, abs=1e-3)
        assert at["yoke to crank"] == pytest.approx(sine - y, abs=1e-3)


def test_a_slotted_rocker_is_quick_on_its_way_back(make_job: MakeJob) -> None:
    """It leans by atan2(r cos t, d + r sin t) from its middle (crank and slotted lever, textbook)."""
    base = _bored(_block(-40, -60, 80, 90, 0, HIGH), (0, 0), (0, -PIVOT))
    base += _bored(cylinder(12.0, LEVEL + 0.6, 48).translate((0, -PIVOT, HIGH - 0.1)), (0, -PIVOT))
    slotted = _bored(_block(-6, -8, 12, 76, 0, HIGH), (0, 0)) - _slot(38.0).translate((0, PIVOT, 0))
    lean = math.degrees(math.atan2(12.0, PIVOT))
    bodies = {
        "base": base,
        "crank": _bored(cylinder(36.0, HIGH, 64).translate((0, 0, LEVEL)), (0, 0), (12.0, 0.0)),
        "yoke": slotted.rotate((0, 0, -lean)).translate((0, -PIVOT, 2 * LEVEL)),
    }
    found = _found(make_job, bodies, (*PINS, ("base", "yoke")), "")

    for deg in (-150.0, -70.0, 20.0, 90.0, 200.0):
        along, across = 12.0 * math.cos(math.radians(deg)), PIVOT + 12.0 * math.sin(math.radians(deg))
        leans = lean - math.degrees(math.atan2(along, across))
        assert found.values_at({"base to crank": deg})["base to yoke"] == pytest.approx(leans, abs=0.01)


@pytest.mark.parametrize(
    "more", ["", '[[joint]]\nbetween = ["plate", "rod"]\nhow = "turns"\nneeds_deg = [-10.0, 10.0]\n']
)
def test_a_rod_with_two_pins_in_slots_at_right_angles_is_a_trammel(make_job: MakeJob, more: str) -> None:
    """Its pins 44 mm apart go by 44 sin t along one slot and 44 (1 - cos t) along the other (Archimedes, textbook).

    It was told to slide by 1.1 mm. The slot lets the second pin go 12.2 mm: asin(12.2 / 44) = 16.1 degrees.
    """
    plate = _block(-45, -25, 90, 50, 0, HIGH) - _slot(24.0).translate((22, 0, 0))
    plate -= _slot(30.0).rotate((0, 0, 90)).translate((-22, 0, 0))
    rod = _bored(_block(-27, -5, 54, 10, LEVEL, HIGH), (-22, 0), (22, 0))
    pins = (("plate", "rod"), ("plate", "rod"))
    found = _found(make_job, {"plate": plate, "rod": rod}, pins, more)
    turn, slide, other = found.joints

    assert [joint.kind for joint in found.joints] == ["turns", "slides", "slides"]
    assert len(found.loops) == 1
    assert turn.needs_deg == ((-10.0, 10.0) if more else None)
    for deg in (-15.0, 4.0, 14.0):
        at, t = found.values_at({turn.name: deg}), math.radians(deg)
        assert at[slide.name] == pytest.approx(44.0 * (1.0 - math.cos(t)), abs=1e-3)
        assert at[other.name] == pytest.approx(44.0 * math.sin(t), abs=1e-3)
    tip = found.frames_at({turn.name: 14.0})["rod"].point((22.0, 0.0, 9.0))
    assert tip == pytest.approx((22.0, 44.0 * math.sin(math.radians(14.0)), 9.0), abs=1e-3)


@pytest.mark.parametrize("guided", [True, False])
def test_a_yoke_that_nobody_speaks_of(make_job: MakeJob, *, guided: bool) -> None:
    """Between rails of the base it slides on it; held by nothing else, that is said, and what to write fits."""
    x, y = RADIUS * math.cos(math.radians(DRAWN_DEG)), RADIUS * math.sin(math.radians(DRAWN_DEG))
    base = _bored(_block(-60, -30, 130, 60, 0, HIGH), (0, 0))
    for low in (6.4, -10.4) if guided else ():
        base += _block(35, low, 28, 4, HIGH - 0.1, 3 * LEVEL)
    yoke = _block(x - 6, -26, 12, 52, 2 * LEVEL, HIGH) + _block(x, -6, 60, 12, 2 * LEVEL, HIGH)
    bodies = {
        "base": base,
        "crank": _bored(cylinder(40.0, HIGH, 64).translate((0, 0, LEVEL)), (0, 0), (x, y)),
        "yoke": yoke - _slot(36.0).translate((x, 0, 0)),
    }
    solids = {name: solid_of(body, name) for name, body in bodies.items()}
    surveys = {name: survey(solid) for name, solid in solids.items()}
    turns = '[[joint]]\nbetween = ["crank", "yoke"]\nhow = "turns"\n'
    for more, unsolved in (("", not guided), (turns, False)):
        job = make_job(_text(bodies, PINS) + more, **solids)
        found = mechanism_of(job, solids, surveys, claims_of(job, surveys).claims)
        assert found is not None
        assert bool(found.unsolved) is unsolved
        if unsolved:
            assert found.unsolved[0].endswith("a pin of crank lies in a slot of yoke, and nothing else holds yoke")
        elif not more:
            at = found.values_at({"base to crank": 100.0})["base to yoke"]
            assert at == pytest.approx(RADIUS * math.cos(math.radians(DRAWN_DEG + 100.0)) - x, abs=1e-3)
        else:
            assert found.joint("crank to yoke").at_mm[:2] == pytest.approx((x, y), abs=0.01)

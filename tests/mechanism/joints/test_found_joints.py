"""Joints found in a small device: two jaws on posts in a fork, a lid on two screws, pads pressed on, a knob on one."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from planner.assembly import Claim, claims_of
from planner.job import Job
from planner.mechanism import Mechanism, mechanism_of, ranges_of
from planner.mesh import Solid
from planner.survey import Survey, survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

Parsed = tuple[Job, dict[str, Solid], dict[str, Survey], tuple[Claim, ...]]


def _bored(body: Manifold, diameter: float, *at: tuple[float, float]) -> Manifold:
    """Return a body with upright bores."""
    for x, y in at:
        body -= cylinder(diameter, 200.0, 48).translate((x, y, -100.0))
    return body


def _solids() -> dict[str, Solid]:
    """Return the device's parts, deck and lid drawn in place, jaw, pad and knob round their own origins."""
    deck = Manifold.cube((60, 60, 4)).translate((-50, -30, -4.4)) + Manifold.cube((60, 60, 4)).translate(
        (-50, -30, 5.4)
    )
    deck += Manifold.cube((30, 60, 13.8)).translate((-50, -30, -4.4))
    deck = _bored(_bored(deck, 5.2, (0, 14), (0, -14)), 3.4, (-45, 20), (-45, -20), (-30, 0))
    lid = _bored(Manifold.cube((18, 60, 3)).translate((-50, -30, 9.4)), 3.4, (-45, 20), (-45, -20))
    jaw = _bored(Manifold.cylinder(5, 6, -1.0, 48) + Manifold.cube((40, 10, 5)).translate((0, -5, 0)), 5.2, (0, 0))
    pad = Manifold.cube((8, 10, 3)).translate((32, -5, 5))
    knob = _bored(cylinder(12, 6, 48), 3.4, (0, 0))
    bodies = {"deck": deck, "lid": lid, "jaw": jaw, "pad": pad, "knob": knob}
    return {name: solid_of(body, name) for name, body in bodies.items()}


TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n'
    + "".join(
        f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\ncount = {count}\n'
        for name, count in {"deck": 1, "lid": 1, "jaw": 2, "pad": 2, "knob": 1}.items()
    )
    + "".join(
        f'[[hardware]]\nname = "{name}"\nkind = "{kind}"\ndiameter_mm = {mm}\nbore_mm = {bore}\nfit = "{fit}"\n'
        f'joins = ["deck", "{other}"]\ncount = {count}\n'
        for name, kind, mm, bore, fit, other, count in (
            ("post", "binding-post", 5.0, 5.2, "turning", "jaw", 2),
            ("lid screw", "machine-screw", 3.0, 3.4, "sliding", "lid", 2),
            ("knob screw", "machine-screw", 3.0, 3.4, "sliding", "knob", 1),
        )
    )
    + "".join(
        f'[[place]]\npart = "{part}"\nat_mm = {at}\nturn = {turn}\n'
        for part, at, turn in (
            ("jaw", "[0, 14, 0]", "[0, 0, 1, 10]"),
            ("jaw#2", "[0, -14, 5]", "[1, 0, 0, 180]"),
            ("pad", "[0, 14, 0]", "[0, 0, 1, 10]"),
            ("pad#2", "[0, -14, 5]", "[1, 0, 0, 180]"),
            ("knob", "[-30, 0, 9.4]", "[0, 0, 1, 0]"),
        )
    )
    + '[[joint]]\nbetween = ["jaw", "pad"]\nhow = "pressed"\n'
    '[[joint]]\nbetween = ["deck", "jaw"]\nhow = "turns"\nname = "grip"\nneeds_deg = [0, 20]\n'
)


@pytest.fixture(name="device", scope="module")
def _device() -> tuple[dict[str, Solid], dict[str, Survey]]:
    """Measure the parts once."""
    solids = _solids()
    return solids, {name: survey(solid) for name, solid in solids.items()}


def _mechanism(
    make_job: MakeJob, device: tuple[Mapping[str, Solid], Mapping[str, Survey]], text: str = TEXT
) -> tuple[Job, Mechanism]:
    """Return the job and its mechanism."""
    solids, surveys = device
    job = make_job(text, **solids)
    found = mechanism_of(job, solids, surveys, claims_of(job, surveys).claims)
    assert found is not None
    return job, found


def test_both_jaws_turn_and_all_else_is_fixed(
    make_job: MakeJob, device: tuple[dict[str, Solid], dict[str, Survey]]
) -> None:
    """One statement names both jaws' joints and what they need; pads go with their jaws, lid and knob with the deck."""
    _, found = _mechanism(make_job, device)

    assert [joint.name for joint in found.joints] == ["grip", "grip (deck to jaw#2)"]
    assert [joint.parts for joint in found.joints] == [("deck", "jaw"), ("deck", "jaw#2")]
    assert {joint.needs_deg for joint in found.joints} == {(0.0, 20.0)}
    assert found.groups[0] == {"deck", "lid", "knob"}
    assert set(found.groups[1:]) == {frozenset({"jaw", "pad"}), frozenset({"jaw#2", "pad#2"})}


def test_an_axis_has_the_sense_of_the_moving_copys_bore(
    make_job: MakeJob, device: tuple[dict[str, Solid], dict[str, Survey]]
) -> None:
    """The jaw that is turned over turns about the other sense of the axis, on its own post; the joint names its pin."""
    one, other = _mechanism(make_job, device)[1].joints

    assert one.axis[2] * other.axis[2] == pytest.approx(-1.0, abs=1e-6)
    assert one.at_mm[:2] == pytest.approx((0.0, 14.0), abs=1e-3)
    assert other.at_mm[:2] == pytest.approx((0.0, -14.0), abs=1e-3)
    assert (one.pin, other.pin) == ("post", "post")


def test_frames_at_turn_a_jaw_and_its_pad(
    make_job: MakeJob, device: tuple[dict[str, Solid], dict[str, Survey]]
) -> None:
    """The pad goes along with its jaw, by the right hand about the told axis; the rest stays."""
    _, found = _mechanism(make_job, device)
    joint = found.joint("grip")
    frames = found.frames_at({"grip": 30.0})
    turned = found.frames["pad"].turned_about(joint.axis, joint.at_mm, 30.0)

    assert frames["pad"].point((1.0, 2.0, 3.0)) == pytest.approx(turned.point((1.0, 2.0, 3.0)))
    assert frames["pad#2"].point((1.0, 2.0, 3.0)) == pytest.approx(found.frames["pad#2"].point((1.0, 2.0, 3.0)))


def test_jaws_in_a_fork_turn_until_they_meet(
    make_job: MakeJob, device: tuple[dict[str, Solid], dict[str, Survey]]
) -> None:
    """A gap of 0.4 mm to the fork is no stop, nor are touching pads; a jaw stops at the other jaw or its pad, and at the fork's back."""
    job, found = _mechanism(make_job, device)
    ranges = ranges_of(job, device[0], found, clearance_mm=0.3)

    for joint in found.joints:
        one = ranges.of(joint.name)
        low, high = one.free_deg
        assert low is not None
        assert high is not None
        assert high - low > 60.0
        assert {stop.what for stop in one.stops} == {"near"}
        assert any({copy.endswith("#2") for copy in stop.parts} == {True, False} for stop in one.stops)


def test_one_clamped_screw_with_a_locking_nut_lets_turn(
    make_job: MakeJob, device: tuple[dict[str, Solid], dict[str, Survey]]
) -> None:
    """A locking nut on the knob's one screw makes it a joint; a plain one clamps it."""
    text = TEXT.replace('joins = ["deck", "knob"]\n', 'joins = ["deck", "knob"]\nnut = "locking"\n')
    _, found = _mechanism(make_job, device, text)

    assert "deck to knob" in [joint.name for joint in found.joints]


def test_a_stated_joint_stands_before_what_is_found(
    make_job: MakeJob, device: tuple[dict[str, Solid], dict[str, Survey]]
) -> None:
    """Stated fixed, one jaw moves no more; stated to turn where no axis is shared, the joint is told as unsolved."""
    fixed = TEXT + '[[joint]]\nbetween = ["deck", "jaw#2"]\nhow = "fixed"\n'
    lost = TEXT + '[[joint]]\nbetween = ["lid", "pad"]\nhow = "turns"\nname = "flap"\n'

    assert [joint.name for joint in _mechanism(make_job, device, fixed)[1].joints] == ["grip"]
    unsolved = _mechanism(make_job, device, lost)[1].unsolved
    assert len(unsolved) == 1
    assert unsolved[0].startswith("flap: stated to turn, but no bores of both lie on one axis")


def test_a_device_where_nothing_moves_has_no_mechanism(make_job: MakeJob) -> None:
    """Two plates on two screws: None."""
    plates = {
        n: solid_of(_bored(Manifold.cube((40, 20, 5)).translate((0, 0, z)), 3.4, (8, 10), (32, 10)), n)
        for n, z in (("a", 0.0), ("b", 5.0))
    }
    text = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\n[[part]]\nname = "b"\nmesh = "b.stl"\n'
    text += '[[hardware]]\nname = "s"\nkind = "machine-screw"\ndiameter_mm = 3.0\nbore_mm = 3.4\njoins = ["a", "b"]\ncount = 2\n'
    job = make_job(text, **plates)
    surveys = {name: survey(solid) for name, solid in plates.items()}

    assert mechanism_of(job, plates, surveys, claims_of(job, surveys).claims) is None


def test_what_turns_on_a_pin_and_has_no_place_is_told(make_job: MakeJob) -> None:
    """A bar that may stand on either side of its plate: it turns, nobody knows where, and "nothing moves" is no answer."""
    solids = {
        "plate": solid_of(_bored(Manifold.cube((40, 40, 6)).translate((-20, -20, 0)), 5.4, (0, 0)), "plate"),
        "bar": solid_of(_bored(Manifold.cube((40, 10, 6)).translate((95, 75, 50)), 5.4, (100, 80)), "bar"),
    }
    parts = "".join(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\n' for name in solids)
    pin = '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = 5.4\nfit = "turning"\n'
    _, found = _mechanism(
        make_job,
        (solids, {name: survey(solid) for name, solid in solids.items()}),
        f'[job]\nname = "x"\nmaterial = "petg"\n{parts}{pin}joins = ["plate", "bar"]\n',
    )

    assert not found.joints
    assert found.unsolved == ("plate to bar: the place of bar is not known",)

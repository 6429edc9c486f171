"""A slider-crank that a cord turns, against statics by hand (textbook, from memory)."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from planner.job import read_job
from planner.mechanism import Mechanism, MovingJoint
from planner.mechanism.cord.cord_run import run_of
from planner.mechanism.cord.path.path_stop import PathStop, PointStop
from planner.mechanism.cord.small_moves import motions_over
from planner.mechanism.cord_effects.cord_moves import driven_joints
from planner.mechanism.cord_effects.cord_on_joint import StrungCord, strung_cord
from planner.mechanism.cord_effects.loop_bearings import in_loop, loop_bearings, moving_bodies, pin_mm
from planner.mechanism.force.driven_joint import DrivenJoint, Strung
from planner.mechanism.force.friction import Friction
from planner.mechanism.force.loop_balance import LoopBalance
from tests.conftest import MakeJob
from tests.mechanism.invented import Device, rocker_deg
from tests.shapes import cuboid

CRANK, LINK = 20.0, math.hypot(20.0, 50.0)
PATH: tuple[PathStop, ...] = (
    PointStop(copy="base", at_mm=(400.0, 20.0, 0.0)),
    PointStop(copy="crank", at_mm=(0.0, 20.0, 0.0)),
)
"""A cord that pulls at the crank's end, along x to begin with."""


def slider_crank() -> Mechanism:
    """Return an upright crank of 20 mm, a link down to a slide at x = 50 on the level of the crank's axis."""
    spots = ((0.0, 0.0), (0.0, CRANK), (50.0, 0.0))
    pairs = (("base", "crank"), ("crank", "link"), ("link", "slide"))
    joints = [
        MovingJoint(name=f"{a} to {b}", parts=(a, b), kind="turns", axis=(0.0, 0.0, 1.0), at_mm=(x, y, 0.0), pin="pin")
        for (a, b), (x, y) in zip(pairs, spots, strict=True)
    ]
    slot = MovingJoint(
        name="base to slide", parts=("base", "slide"), kind="slides", axis=(1.0, 0.0, 0.0), at_mm=(50.0, 0.0, 0.0)
    )
    solids = {name: cuboid(1, 1, 1) for name in ("base", "crank", "link", "slide")}
    ranges: dict[str, tuple[float | None, float | None]] = {"base to crank": (None, None)}
    return Device(name="slider-crank", solids=solids, joints=(*joints, slot), ranges=ranges).mechanism()


@pytest.fixture(name="driven")
def _driven(heron: Path) -> DrivenJoint:
    loop, job = slider_crank(), read_job(heron)
    pin = replace(job.hardware[0], name="pin", diameter_mm=4.0)
    job = replace(job, hardware=(pin,))
    motions = motions_over(lambda deg: loop.frames_at({"base to crank": deg}), [-20.0, -10.0, 0.0])
    bodies = moving_bodies(loop, motions[0])
    assert in_loop(loop, loop.joint("base to crank"))
    assert pin_mm(job, loop.joint("base to crank")) == 2.0
    return DrivenJoint(
        motions=motions,
        factor=1.0,
        moving=frozenset(bodies),
        axis=(0.0, 0.0, 1.0),
        pin_mm=2.0,
        pull=Strung(stops=PATH, run=run_of(PATH, motions, 1.0, 1.0)),
        tip=("slide", (50.0, 0.0, 0.0)),
        loops=tuple(loop_bearings(job, loop, motion, bodies, 1.0) for motion in motions),
        bodies=bodies,
    )


def test_forces_in_the_loop_are_those_of_the_link(driven: DrivenJoint) -> None:
    """Crank upright, 40 N at the slide: the cord pulls 40 N along x, the link F / cos(slope), the crank's pin the rest."""
    balance = driven.balance(2, Friction())
    assert isinstance(balance, LoopBalance)
    pull = balance.pull_for_n(40.0, 0.0)
    crank, link, slide, slot = balance.forces_n(pull, 40.0)
    along = 40.0 * LINK / 50.0

    assert pull == pytest.approx(40.0, rel=1e-4)  # at the crank's end both act at the same arm
    assert math.hypot(*link[:2]) == pytest.approx(along, rel=1e-4)
    assert math.hypot(*slide[:2]) == pytest.approx(along, rel=1e-4)
    assert crank == pytest.approx((0.0, -40.0 * 20.0 / 50.0, 0.0), abs=0.01)
    assert slot == pytest.approx((0.0, 40.0 * 20.0 / 50.0, 0.0), abs=0.01)


def test_every_pin_of_the_loop_takes_its_friction(driven: DrivenJoint) -> None:
    """mu r R at each pin times how fast it turns, and mu N in the slot times its way, by hand where the crank is upright.

    The link, which only shifts, is twisted by the crank's pin alone; the slot's friction is pushed through the link.
    """
    balance = driven.balance(2, Friction())
    assert isinstance(balance, LoopBalance)
    mu, wall = 0.2, 16.0
    turned = {
        "crank": 1.0,
        "link": 1.0,
        "slide": 0.0,
    }  # upright, the link only shifts: it turns against its crank alone
    x, y, pull = 40.0, wall, 40.0
    for _ in range(50):
        y = (CRANK * x + mu * 2.0 * math.hypot(x, y)) / 50.0
        x = 40.0 + mu * y
        pins = 2.0 * (math.hypot(x - pull, y) * turned["crank"] + math.hypot(x, y) * turned["link"])
        pull = 40.0 + mu * (pins + y * CRANK) / CRANK

    assert [abs(bearing.speed_ratio) for bearing in balance.bearings] == pytest.approx([1.0, 1.0, 0.0, CRANK], abs=1e-4)
    assert balance.pull_for_n(40.0, mu) == pytest.approx(pull, rel=1e-4)
    assert balance.grip_for_n(balance.pull_for_n(40.0, mu), mu) == pytest.approx(40.0, rel=1e-6)


BARS = (20.0, 50.0, 35.0, 60.0)
"""Handle, coupler, arm and base of a toggle clamp; the handle stands upright as drawn."""
ARM_MM = 60.0
"""The tip lies so far out on the arm."""


def toggle() -> tuple[Mechanism, tuple[float, float, float]]:
    """Return a clamp whose handle and coupler come in line after 60 degrees, and where its tip is as drawn."""
    a, _, c, d = BARS
    t4 = math.radians(rocker_deg(BARS, 90.0))
    spots = ((0.0, 0.0), (0.0, a), (d + c * math.cos(t4), c * math.sin(t4)), (d, 0.0))
    pairs = (("base", "handle"), ("handle", "coupler"), ("coupler", "arm"), ("base", "arm"))
    joints = tuple(
        MovingJoint(name=f"{a} to {b}", parts=(a, b), kind="turns", axis=(0.0, 0.0, 1.0), at_mm=(*xy, 0.0), pin="pin")
        for (a, b), xy in zip(pairs, spots, strict=True)
    )
    joints = (replace(joints[0], needs_deg=(-69.0, 0.0)), *joints[1:])
    solids = {name: cuboid(1, 1, 1) for name in ("base", "handle", "coupler", "arm")}
    ranges: dict[str, tuple[float | None, float | None]] = {"base to handle": (None, None)}
    device = Device(name="toggle", solids=solids, joints=joints, ranges=ranges)
    return device.mechanism(), (d + ARM_MM * math.cos(t4), ARM_MM * math.sin(t4), 0.0)


def test_a_toggle_clamp_needs_no_pull_beyond_its_dead_point_and_holds_any_grip(make_job: MakeJob) -> None:
    """Virtual work by Freudenstein's equation (1955), a cord on the handle and a grip on the arm.

    20 N at the arm's tip ask 47.4 N of a handle 14 mm long, less as it comes into line, and beyond push the handle on.
    In line the pins still rub under the 40 N of the coupler, 30 mm from the arm's axis.
    """
    mechanism, tip = toggle()
    names = ("base", "handle", "coupler", "arm")
    text = "".join(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\n' for name in names)
    more = (
        '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = 4.0\nbore_mm = 4.4\njoins = ["base", "handle"]\n'
    )
    cord = '[[cord]]\nname = "pull"\npart = "base"\ndiameter_mm = 1.0\ndrives = "arm"\nfrom = "wrist"\n'
    job = make_job(f'[job]\nname = "x"\nmaterial = "petg"\n{text}{more}{cord}', **{n: cuboid(1, 1, 1) for n in names})
    stops = (PointStop(copy="base", at_mm=(-14.0, 60.0, 0.0)), PointStop(copy="handle", at_mm=(-14.0, 0.0, 0.0)))
    strung = strung_cord(job, mechanism, job.cords[0], stops, {"base to handle": (-70.0, 150.0)})

    assert isinstance(strung, StrungCord)
    assert (strung.joint.name, strung.driven) == ("base to handle", "arm")
    solids = {name: cuboid(1, 1, 1) for name in names}
    found = driven_joints(job, solids, strung, [], [strung.run(1.0, strung.legs[0])], tip, 1.0)
    assert not isinstance(found, str)
    clamp = found[0]
    balances = [clamp.balance(k, Friction()) for k in range(len(clamp.motions))]
    pulls = []
    for motion, balance in zip(clamp.motions, balances, strict=True):
        assert isinstance(balance, LoopBalance)
        deg = 90.0 + motion.at_deg
        hook = math.radians(motion.at_deg)
        way = (-14.0 * math.cos(hook) + 14.0, -14.0 * math.sin(hook) - 60.0)
        arm = 14.0 * abs(math.sin(hook) * way[0] - math.cos(hook) * way[1]) / math.hypot(*way)
        turns = (rocker_deg(BARS, deg + 0.01) - rocker_deg(BARS, deg - 0.01)) / 0.02
        asked = 20.0 * ARM_MM * turns / arm
        assert balance.pull_for_n(20.0, 0.0) == pytest.approx(max(asked, 0.0), abs=0.02)
        pulls.append(balance.pull_for_n(20.0, 0.3))

    places = [motion.at_deg for motion in clamp.motions]
    line = min(range(len(places)), key=lambda k: abs(places[k] + 60.0))
    assert 0.0 < pulls[line] < pulls[places.index(0.0)]
    assert pulls[places.index(-69.0)] == 0.0
    assert balances[places.index(-69.0)].grip_for_n(1.0, 0.3) == math.inf


def scotch_yoke() -> tuple[Mechanism, tuple[float, float, float]]:
    """Return a crank of 20 mm at 50 degrees whose pin slides in a slot along y, the yoke along x; and the pin's place."""
    pin = (CRANK * math.cos(math.radians(50.0)), CRANK * math.sin(math.radians(50.0)), 0.0)
    z = (0.0, 0.0, 1.0)
    joints = (
        MovingJoint(name="base to crank", parts=("base", "crank"), kind="turns", axis=z, at_mm=(0.0, 0.0, 0.0)),
        MovingJoint(
            name="slot", parts=("yoke", "crank"), kind="slides", axis=(0.0, 1.0, 0.0), at_mm=pin, about=z, pin="pin"
        ),
        MovingJoint(
            name="guide", parts=("base", "yoke"), kind="slides", axis=(1.0, 0.0, 0.0), at_mm=(0.0, pin[1], 0.0)
        ),
    )
    solids = {name: cuboid(1, 1, 1) for name in ("base", "crank", "yoke")}
    ranges: dict[str, tuple[float | None, float | None]] = {"base to crank": (None, None)}
    return Device(name="yoke", solids=solids, joints=joints, ranges=ranges).mechanism(), pin


@pytest.mark.parametrize("mu", [0.0, 0.1, 0.3])
def test_a_pin_rubs_along_its_slot_and_pushes_the_yoke_into_its_guide(heron: Path, mu: float) -> None:
    """Statics by hand of a Scotch yoke: N on the slot's wall, mu N along it, which the guide takes and rubs with again.

    N = F + mu mu N, and P r = N r sin t + mu N r cos t + mu N d / 2 for a pin of the width d; without friction F sin t.
    """
    loop, pin = scotch_yoke()
    job = read_job(heron)
    job = replace(job, hardware=(replace(job.hardware[0], name="pin", diameter_mm=4.0),))
    motions = motions_over(lambda deg: loop.frames_at({"base to crank": deg}), [-10.0, 0.0, 10.0])
    bodies, turn = moving_bodies(loop, motions[0]), math.radians(50.0)
    far = (pin[0] - 4000.0 * math.sin(turn), pin[1] + 4000.0 * math.cos(turn), 0.0)
    path = (PointStop(copy="base", at_mm=far), PointStop(copy="crank", at_mm=pin))
    driven = DrivenJoint(
        motions=motions,
        factor=1.0,
        moving=frozenset(bodies),
        axis=(0.0, 0.0, 1.0),
        pin_mm=0.0,
        pull=Strung(stops=path, run=run_of(path, motions, 1.0, 1.0)),
        tip=("yoke", pin),
        loops=tuple(loop_bearings(job, loop, motion, bodies, 1.0) for motion in motions),
        bodies=bodies,
    )
    wall = 40.0 / (1.0 - mu * mu)
    by_hand = wall * (math.sin(turn) + mu * (math.cos(turn) + 2.0 / CRANK))

    assert driven.balance(1, Friction()).pull_for_n(40.0, mu) == pytest.approx(by_hand, rel=1e-6)

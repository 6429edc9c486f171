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
from planner.mechanism.cord_effects.loop_bearings import in_loop, loop_bearings, moving_bodies, pin_mm
from planner.mechanism.force.driven_joint import DrivenJoint, Strung
from planner.mechanism.force.friction import Friction
from planner.mechanism.force.loop_balance import LoopBalance
from tests.mechanism.invented import Device
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
    """mu r R at each pin times how fast it turns, and mu N in the slot times its way: by hand where the crank is upright."""
    balance = driven.balance(2, Friction())
    assert isinstance(balance, LoopBalance)
    mu, along, wall = 0.2, 40.0 * LINK / 50.0, 16.0
    turned = {
        "crank": 1.0,
        "link": 1.0,
        "slide": 0.0,
    }  # upright, the link only shifts: it turns against its crank alone
    lost = mu * (2.0 * (wall * turned["crank"] + along * turned["link"]) + wall * CRANK)

    assert [abs(bearing.speed_ratio) for bearing in balance.bearings] == pytest.approx([1.0, 1.0, 0.0, CRANK], abs=1e-4)
    assert balance.pull_for_n(40.0, mu) == pytest.approx(40.0 / (1.0 - lost / (40.0 * CRANK)), rel=1e-3)
    assert balance.grip_for_n(balance.pull_for_n(40.0, mu), mu) == pytest.approx(40.0, rel=1e-6)

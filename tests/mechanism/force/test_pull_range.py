"""Pull and grip over a range: virtual work, published figures, and whether it opens again."""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path

import pytest

from planner.job import read_limits
from planner.mechanism import MovingJoint
from planner.mechanism.cord.cord_run import run_of
from planner.mechanism.cord.path.path_stop import PathStop, PointStop
from planner.mechanism.cord.small_moves import motions_over
from planner.mechanism.force.driven_joint import DrivenJoint, Mass, Strung
from planner.mechanism.force.elastic import Elastic
from planner.mechanism.force.friction import Friction, levels
from planner.mechanism.force.pull_range import grip_over, pull_over, return_over
from tests.mechanism.force.jaw import ANGLES, DRUM, EYE, HAND, TIED, jaw
from tests.mechanism.invented import Device
from tests.shapes import cuboid

SMOOTH = (Friction(), Friction(), Friction())
LIMITS = read_limits("standard", Path())
LEVELS = levels(LIMITS.cord_friction, LIMITS.pin_friction)
BAND_END: PathStop = PointStop(copy="jaw", at_mm=(0.0, 10.0, 0.0))


def band(rate_n_per_mm: float | None, full_n: float) -> tuple[tuple[tuple[PathStop, ...], Elastic], ...]:
    """Return a return elastic straight from the base to the jaw's back."""
    foot: PathStop = PointStop(copy="base", at_mm=(-40.0, 12.0, 0.0))
    return (((foot, BAND_END), Elastic(full_n=full_n, rate_n_per_mm=rate_n_per_mm)),)


def work(joint: DrivenJoint, pulls: tuple[float, ...]) -> float:
    """Return pull times travel, summed over the range (trapezoids)."""
    steps = pairwise(zip(pulls, joint.pull.run.length_mm, strict=True))
    return abs(sum((p + q) / 2 * (b - a) for (p, a), (q, b) in steps))


@pytest.mark.parametrize("factor", [0.7, 1.0, 1.5])
def test_without_friction_pull_times_travel_is_grip_times_way(factor: float) -> None:
    """Virtual work over the whole range, within a thousandth: 15 N along the tip's arc of 60 mm at size."""
    joint = jaw(factor=factor, pin_mm=2.5)
    way = 60.0 * factor * math.radians(ANGLES[-1] - ANGLES[0])

    assert work(joint, pull_over(joint, 15.0, SMOOTH).expected_n) == pytest.approx(15.0 * way, rel=1e-3)


def test_the_work_against_an_elastic_is_what_it_stores() -> None:
    """Without a grip, pull times travel is the mean force of a Hooke spring times its stretch."""
    joint = jaw(elastics=band(0.3, 6.0))
    lengths = joint.elastics[0].run.length_mm
    stretch = max(lengths) - min(lengths)

    assert work(joint, pull_over(joint, 0.0, SMOOTH).low_n) == pytest.approx((6.0 - 0.15 * stretch) * stretch, rel=1e-3)


def test_friction_widens_the_pull_and_grip_gives_it_back() -> None:
    """Low, expected and high rise, and the grip that each pull builds up is the one asked for."""
    joint = jaw(pin_mm=2.5, elastics=band(0.3, 6.0))
    pulls = pull_over(joint, 15.0, LEVELS)

    assert all(a < b < c for a, b, c in zip(pulls.low_n, pulls.expected_n, pulls.high_n, strict=True))
    for k, level in enumerate(LEVELS):
        pull = (pulls.low_n, pulls.expected_n, pulls.high_n)[k][7]
        grips = grip_over(joint, pull, LEVELS)
        assert (grips.low_n, grips.expected_n, grips.high_n)[k][7] == pytest.approx(15.0, abs=1e-6), level
    assert pulls.most_n[2] == max(pulls.high_n)
    assert pulls.least_n[0] == min(pulls.low_n)


def test_a_plausible_lever_needs_what_published_devices_need() -> None:
    """15 N of pinch at 60 mm with a 14.5 mm drum and 90° of eye: 33 to 131 N of cable in five voluntary-closing devices.

    Smit & Plettenburg 2010, Prosthet Orthot Int 34:411 (abstract).
    """
    joint = jaw((HAND, EYE, DRUM, TIED), pin_mm=2.5, elastics=band(0.2, 4.0))

    low, expected, high = pull_over(joint, 15.0, LEVELS).most_n
    assert 33.0 < low < expected < high < 131.0


def test_few_people_can_keep_up_what_such_a_lever_needs() -> None:
    """A fifth of 87 to 538 N is what 23 people can keep up: more than the weakest, less than the strongest.

    Hichert et al. 2017, doi 10.1177/0309364617708651 (abstract); below 18 % by Smit & Plettenburg 2010 and, from memory,
    15 to 20 % by Monod & Scherrer 1965, Ergonomics 8:329.
    """
    _, expected, _ = pull_over(jaw((HAND, EYE, DRUM, TIED), pin_mm=2.5), 15.0, LEVELS).most_n

    assert 0.18 <= LIMITS.cord_share.value <= 0.20
    assert LIMITS.cord_share.value * 87.0 < expected < LIMITS.cord_share.value * 538.0


def test_an_elastic_opens_where_its_moment_exceeds_friction_and_weight() -> None:
    """At every angle the rest is force x arm - mu r R - weight x reach, worked out apart."""
    joint = jaw(pin_mm=2.5, elastics=band(0.1, 5.0), masses=(Mass(copy="jaw", at_mm=(30.0, 0.0, 0.0), mass_g=10.0),))
    found = return_over(joint, LEVELS)
    run = joint.elastics[0].run
    for k, mu in ((0, LEVELS[0].pin_ratio), (12, LEVELS[0].pin_ratio)):
        force = 5.0 - 0.1 * (max(run.length_mm) - run.length_mm[k])
        assert found.high_n_mm[k] == pytest.approx(force * abs(run.arm_mm[k]) - mu * 2.5 * force, abs=1e-4)
    assert found.known
    assert all(a < b < c for a, b, c in zip(found.low_n_mm, found.expected_n_mm, found.high_n_mm, strict=True))
    assert found.least_n_mm[0] == min(found.low_n_mm)


def test_a_heavy_hand_does_not_open_and_an_unmeasured_elastic_is_not_known() -> None:
    """300 g at 40 mm are too much for 2 N; without a rate nothing is claimed but at full stretch."""
    heavy = jaw(pin_mm=2.5, elastics=band(0.1, 2.0), masses=(Mass(copy="jaw", at_mm=(40.0, 0.0, 0.0), mass_g=300.0),))

    assert return_over(heavy, LEVELS).least_n_mm[0] < 0.0
    assert not return_over(jaw(elastics=band(None, 5.0)), LEVELS).known


def test_through_a_four_bar_pull_times_travel_is_grip_times_way_too() -> None:
    """A cord turns the crank, the tip is on the rocker: what goes in comes out, whatever the linkage does between."""
    pins = {"crank": (0.0, 0.0), "coupler": (0.0, 20.0), "rocker": (50.0, 35.0)}
    joints = tuple(
        MovingJoint(name=f"{a} to {b}", parts=(a, b), kind="turns", axis=(0.0, 0.0, 1.0), at_mm=(x, y, 0.0))
        for (a, b), (x, y) in zip(
            [("base", "crank"), ("crank", "coupler"), ("coupler", "rocker"), ("base", "rocker")],
            [*pins.values(), (55.0, 0.0)],
            strict=True,
        )
    )
    names = dict.fromkeys(["base", *pins])
    loop = Device(
        name="four-bar",
        solids={name: cuboid(1, 1, 1) for name in names},
        joints=joints,
        ranges={"base to crank": (None, None)},
    ).mechanism()
    motions = motions_over(lambda deg: loop.frames_at({"base to crank": deg}), [2.0 * k for k in range(16)])
    path: tuple[PathStop, ...] = (
        PointStop(copy="base", at_mm=(-70.0, 10.0, 0.0)),
        PointStop(copy="crank", at_mm=(0.0, 15.0, 0.0)),
    )
    joint = DrivenJoint(
        motions=motions,
        factor=1.0,
        moving=frozenset(pins),
        axis=(0.0, 0.0, 1.0),
        pin_mm=0.0,
        pull=Strung(stops=path, run=run_of(path, motions, 1.0, 1.0)),
        tip=("rocker", (60.0, 70.0, 0.0)),
    )
    tips = [motion.here["rocker"].point((60.0, 70.0, 0.0)) for motion in motions]
    way = sum(math.dist(a, b) for a, b in pairwise(tips))

    assert way > 5.0
    assert work(joint, pull_over(joint, 15.0, SMOOTH).expected_n) == pytest.approx(15.0 * way, rel=2e-3)


def test_the_weight_of_what_moves_counts_at_the_high_end_alone() -> None:
    """300 g at 40 mm: 0.3 x 9.81 x 40 N mm more over the cord's arm; less friction leaves the weight out."""
    bare, heavy = (
        pull_over(jaw(masses=masses), 15.0, SMOOTH)
        for masses in ((), (Mass(copy="jaw", at_mm=(40.0, 0.0, 0.0), mass_g=300.0),))
    )

    assert (heavy.low_n, heavy.expected_n) == (bare.low_n, bare.expected_n)
    arms = jaw().pull.run.arm_mm
    more = [0.3 * 9.81 * 40.0 / abs(arm) for arm in arms]
    assert [h - b for h, b in zip(heavy.high_n, bare.high_n, strict=True)] == pytest.approx(more, rel=1e-3)

"""A device's cords at size against a lever worked out by hand."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from planner.job import PathPoint, read_job
from planner.mechanism.cord_effects.cord_moves import CordMoves, cord_moves
from planner.mechanism.cord_effects.cord_on_joint import strung_cords
from tests.mechanism.cord.path.known_parts import survey_of
from tests.mechanism.cord_effects.one_jaw import OneJaw, one_jaw, two_jaws
from tests.mechanism.force.together.straight_finger import NAMES, straight_finger
from tests.shapes import Manifold, cuboid, solid_of, written


@pytest.fixture(name="device", scope="module")
def _device(tmp_path_factory: pytest.TempPathFactory) -> OneJaw:
    return one_jaw(tmp_path_factory.mktemp("one_jaw"))


def moves(device: OneJaw, factor: float = 1.0, **changes: object) -> CordMoves:
    """Return what its cords do, with changes to the pulling one."""
    job = device.with_cord(**changes)
    return cord_moves(job, device.solids, device.strung(job), factor)


def length_mm(deg: float, factor: float) -> float:
    """Return the way from the eye to the hook, 14 mm from the axis."""
    x, y = 14.0 * math.sin(math.radians(deg)), -14.0 * math.cos(math.radians(deg))
    return factor * math.hypot(x + 60.0, y + 14.0)


@pytest.mark.parametrize("factor", [0.7, 1.0, 1.6])
def test_slack_of_a_knot_is_drawn_in_before_anything_moves(device: OneJaw, factor: float) -> None:
    """3 mm of slack are 3 mm more of the wrist at every size; way and pull are as they were."""
    (taut,), (slack,) = moves(device, factor).cords, moves(device, factor, slack_mm=3.0).cords

    assert (slack.travel_mm, slack.pull_n) == (taut.travel_mm, taut.pull_n)
    assert taut.asks_mm is not None
    assert taut.slack_mm is not None
    assert slack.asks_mm == pytest.approx(taut.asks_mm + 3.0)
    assert slack.slack_mm == pytest.approx(taut.slack_mm - 3.0)


@pytest.mark.parametrize("factor", [0.7, 1.0, 1.6])
def test_travel_arms_and_what_the_wrist_gives(device: OneJaw, factor: float) -> None:
    """Travel is the difference of two chords at size; 40 mm of wrist over 40 degrees give 27.9 mm at every size."""
    (move,) = moves(device, factor).cords

    assert move.travel_mm == pytest.approx(length_mm(40.0, factor) - length_mm(0.0, factor), abs=1e-6)
    assert move.length_mm == pytest.approx((length_mm(40.0, factor), length_mm(0.0, factor)), abs=1e-6)
    assert move.has_mm == pytest.approx(40.0 * math.radians(40.0))
    slope = (length_mm(40.001, factor) - length_mm(39.999, factor)) / math.radians(0.002)
    assert move.arm_mm is not None
    assert move.arm_mm[1] == pytest.approx(slope, abs=1e-4)
    assert not move.unknown


def test_the_pull_is_lever_elastic_and_friction_together(device: OneJaw) -> None:
    """With no friction of the pin, at its low end: 10 N x 60 mm and the band's moment over the cord's arm."""
    quiet = replace(device.job.limits.pin_friction, low=0.0)
    job = replace(device.job, limits=replace(device.job.limits, pin_friction=quiet))
    (move,) = cord_moves(job, device.solids, device.strung(), 1.0).cords
    most = max(
        (600.0 + (5.0 - 0.1 * (_band_mm(0.0) - _band_mm(deg))) * _slope(_band_mm, deg)) / _slope(_pull_mm, deg)
        for deg in (point[0] for point in move.curve_n)
    )

    assert move.pull_n is not None
    assert move.pull_n[0] == pytest.approx(most, rel=1e-4)
    assert move.pull_n[0] < move.pull_n[1] < move.pull_n[2]
    assert move.elastic == "band"
    assert move.back_n_mm is not None
    assert 0.0 < move.back_n_mm[0] < move.back_n_mm[1]


def test_the_grip_that_can_be_kept_up_is_that_of_the_pull_it_needs(device: OneJaw) -> None:
    """A person who can keep up just the most pull for 10 N grips with 10 N at the hardest angle; unmeasured, not told."""
    (move,) = moves(device).cords
    assert move.pull_n is not None
    assert move.grip_for_n is None
    greatest = move.pull_n[2] / device.job.limits.cord_share.value
    job = replace(device.job, use=replace(device.job.use, pull_n=greatest))
    (kept,) = cord_moves(job, device.solids, device.strung(), 1.0).cords

    assert kept.grip_for_n is not None
    pull, least, expected, most, hardest = kept.grip_for_n
    assert pull == pytest.approx(move.pull_n[2])
    assert least == pytest.approx(10.0, abs=1e-6)
    assert least < expected < most < hardest


def test_what_people_usually_give_is_told_where_the_range_is_not_measured(device: OneJaw) -> None:
    """40 mm over 80 degrees of daily wrist (Ryu et al. 1991): 55.9 mm."""
    assert device.job.drive is not None
    job = replace(device.job, drive=replace(device.job.drive, range_deg=None))
    (move,) = cord_moves(job, device.solids, device.strung(), 1.0).cords

    assert move.has_mm is None
    assert move.usual_mm is not None
    assert move.usual_mm[0] == pytest.approx(40.0 * math.radians(80.0), rel=0.01)
    assert moves(device).cords[0].usual_mm is None


def _pull_mm(deg: float) -> float:
    return length_mm(deg, 1.0)


def _band_mm(deg: float) -> float:
    return math.hypot(-10.0 * math.sin(math.radians(deg)) + 60.0, 10.0 * math.cos(math.radians(deg)) - 10.0)


def _slope(length: Callable[[float], float], deg: float) -> float:
    return abs(length(deg + 0.001) - length(deg - 0.001)) / math.radians(0.002)


def test_two_elastics_on_one_jaw_pull_twice(device: OneJaw) -> None:
    """Both strands count where there is one copy; a second copy that stands nowhere holds, and nothing is told."""
    pull, band = device.job.cords
    twice = replace(device.job, cords=(pull, replace(band, count=2)))
    (double,) = cord_moves(twice, device.solids, device.strung(twice), 1.0).cords
    (single,) = moves(device).cords

    assert double.pull_n is not None
    assert single.pull_n is not None
    assert double.pull_n[0] > single.pull_n[0] + 3.0  # 5 N more at 10 mm, over 14 mm

    parts = tuple(replace(part, count=2 if part.name == "jaw" else 1) for part in device.job.parts)
    job = replace(twice, parts=parts)
    held, lost = cord_moves(job, device.solids, device.strung(job), 1.0).cords
    assert lost.unknown.startswith("the way of band#2 is not known: the place of jaw#2 is not")
    assert held.pull_n is None
    assert lost.unknown in held.pull_unknown


def test_two_jaws_on_one_table_of_cords_ask_twice_the_pull_of_one(device: OneJaw, tmp_path: Path) -> None:
    """The second way is found, mirrored: same travel, twice the pull; with one elastic the second jaw has none."""
    (single,) = moves(device).cords
    assert single.pull_n is not None
    for bands, least, most in ((2, 2.0, 2.0), (1, 1.5, 1.97)):
        pair = two_jaws(tmp_path, bands)
        strung = pair.strung()
        (both,) = cord_moves(pair.job, pair.solids, strung, 1.0).cords

        assert set(strung) == {"pull", "pull#2", "band", *(["band#2"] if bands == 2 else [])}
        assert both.travel_mm == pytest.approx(single.travel_mm, abs=1e-6)
        assert not both.ways_unknown
        assert both.pull_n is not None
        assert least - 1e-3 <= both.pull_n[1] / single.pull_n[1] <= most + 1e-3


def test_one_elastic_table_serves_two_tables_of_cords(device: OneJaw, tmp_path: Path) -> None:
    """Each cord has a table, the elastics share one of count 2: the wrist draws both, each against one elastic."""
    (single,) = moves(device).cords
    pair = two_jaws(tmp_path)
    pull, band = pair.job.cords
    first = replace(pull, count=1, drawn_from="")
    ends = (PathPoint(copy="plate", at_mm=(-60.0, -16.0, 7.5)), PathPoint(copy="jaw#2", feature="hook"))
    job = replace(pair.job, cords=(first, replace(first, name="other", path=ends, drives="jaw#2"), band))
    found = cord_moves(job, pair.solids, pair.strung(job), 1.0).cords

    assert [move.name for move in found] == ["pull", "other"]
    assert single.pull_n is not None
    for move in found:
        assert move.elastic == "band"
        assert move.pull_n == pytest.approx([2.0 * pull for pull in single.pull_n], rel=1e-4)


def test_a_part_with_a_scale_of_its_own_is_not_guessed_at(device: OneJaw) -> None:
    """A pin or a pulley that never scales: said, not worked out as if it did."""
    parts = tuple(replace(part, scale_percent=100.0 if part.name == "jaw" else None) for part in device.job.parts)

    assert "keeps a scale of its own" in str(device.strung(replace(device.job, parts=parts))["pull"])


def test_two_cords_in_one_hand_ask_for_both_pulls(device: OneJaw) -> None:
    """Two of the kind on two jaws, tied or over a bar, take twice one's pull; both on one jaw share it."""
    parts = tuple(replace(part, count=2) for part in device.job.parts)
    jobs = [replace(device.with_cord(count=n, equaliser="bar"), parts=parts) for n in (1, 2)]
    one, two = (cord_moves(job, device.solids, device.strung(job), 1.0).cords[0] for job in jobs)
    assert moves(device, count=2).cords[0].pull_n == one.pull_n

    assert one.pull_n is not None
    assert two.pull_n == pytest.approx([2.0 * pull for pull in one.pull_n])
    assert "the other finger goes on closing" in two.shared
    assert not one.shared


def test_forces_on_the_pin_and_on_every_stop_are_in_balance(device: OneJaw) -> None:
    """The eye and the hook are pulled toward each other; the pin carries the cord, the band, the grip and the weight."""
    found = {one.hardware: one.force_n for one in moves(device).pins}
    eye, hook = found["pull at plate:[-60.0, -14.0, 7.5]"], found["pull at jaw:hook"]

    assert eye == pytest.approx([-force for force in hook])
    assert math.hypot(*hook) == pytest.approx(moves(device).cords[0].pull_n[2])  # type: ignore[index]
    assert math.hypot(*found["pin"]) > math.hypot(*hook) - 10.0 - 5.0 - 1.0


def test_what_is_not_known_is_said_and_the_rest_is_told(device: OneJaw) -> None:
    """Without a tip, a grip, a way or a rate of the elastic: one sentence for what hangs on it, and travel all the same."""
    pull, band = device.job.cords
    jobs = {
        "where jaw grips": device.with_cord(grip_at_mm=None),
        "[use] grip_n": replace(device.job, use=replace(device.job.use, grip_n=None)),
        "the path of band": replace(device.job, cords=(pull, replace(band, path=()))),
        "spring balance": replace(device.job, cords=(pull, replace(band, force_n=None, rate_n_per_mm=None))),
    }
    for asked, job in jobs.items():
        (move,) = cord_moves(job, device.solids, device.strung(job), 1.0).cords
        assert asked in move.pull_unknown
        assert move.pull_n is None
        assert move.travel_mm is not None
        assert not move.unknown
    slack = replace(device.job, cords=(pull, replace(band, rate_n_per_mm=None)))
    (move,) = cord_moves(slack, device.solids, device.strung(slack), 1.0).cords
    assert "state rate_n_per_mm" in move.return_unknown
    assert move.pull_n is not None  # with its full force at every angle


def test_a_cord_that_passes_the_axis_cannot_do_its_work(device: OneJaw) -> None:
    """Its hook in line with eye and axis at 20 degrees: beyond, the pull turns the jaw back."""
    past = replace(device.job, points=(replace(device.job.points[0], at_mm=(-13.9, 1.7, 2.5)),))

    assert (
        "passes the axis of plate to jaw" in cord_moves(past, device.solids, device.strung(past), 1.0).cords[0].unknown
    )


FINGER_EYES = ("base", "one", "one", "two", "two", "three")


def test_a_finger_of_three_segments_takes_the_cord_of_three_joints_and_the_pull_of_the_first(tmp_path: Path) -> None:
    """Each joint shortens the chord between its eyes alike; 10 N at the tip turn hardest on the joint farthest from it."""
    places = [(f"{copy}:[{x}, -8, 0]") for copy, x in zip(FINGER_EYES, (-5, 5, 25, 35, 55, 65), strict=True)]
    part = '[[part]]\nname = "{0}"\nmesh = "{0}.stl"\nduty = "load"\n'
    for name in NAMES:
        written(cuboid(1, 1, 1), tmp_path / f"{name}.stl")
    (tmp_path / "job.toml").write_text(
        '[job]\nname = "finger"\nprinter = "bench-220"\nmaterial = "petg"\nsettings = "standard-0.4"\n'
        + "".join(part.format(name) for name in NAMES)
        + f'[[cord]]\nname = "pull"\npart = "base"\ndiameter_mm = 1.0\nchannel_mm = 2.0\npath = {json.dumps(places)}\n'
        + "grip_at_mm = [90.0, 0.0, 0.0]\n[use]\ngrip_n = 10.0\n",
        encoding="utf-8",
    )
    job = read_job(tmp_path / "job.toml")
    foil = solid_of(Manifold.cube((100.0, 20.0, 0.001)).translate((-10.0, -10.0, 0.0)))  # of no weight
    solids = dict.fromkeys(NAMES, foil)
    strung = strung_cords(job, solids, {name: survey_of(name, ()) for name in NAMES}, [], straight_finger(-40.0), {})
    (move,) = cord_moves(job, solids, strung, 1.0).cords

    def chord(deg: float) -> float:
        x = 5 * math.cos(math.radians(deg)) + 8 * math.sin(math.radians(deg))
        y = 5 * math.sin(math.radians(deg)) - 8 * math.cos(math.radians(deg))
        return math.hypot(x + 5.0, y + 8.0)

    assert not move.unknown
    assert move.travel_mm == pytest.approx(3 * (chord(0.0) - chord(-40.0)), abs=1e-6)
    assert move.pull_n is not None
    assert move.curve_n[-1][0] == 0.0
    assert move.curve_n[-1][1] == pytest.approx(10.0 * 90.0 / 8.0, rel=1e-3)  # straight: 90 mm of finger, 8 mm of arm

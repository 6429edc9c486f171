"""What pins do to the links of closed loops, by hand: slider-crank, four-bar, toggle."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from planner.job import Job, read_job
from planner.mechanism import PointLoad
from planner.mechanism.cord.path.path_stop import PathStop, PointStop
from planner.mechanism.cord_effects.loops.loop_loads import NO_CORD, NOT_STATICS, loop_states, untold_links
from planner.mechanism.force.friction import Friction
from tests.mechanism.cord_effects.loops.looped import driven, mechanism, sliding, turning
from tests.mechanism.cord_effects.test_loop_bearings import toggle

SMOOTH = (Friction(), Friction(), Friction())


@pytest.fixture(name="job")
def _job(heron: Path) -> Job:
    job = read_job(heron)
    return replace(job, hardware=(replace(job.hardware[0], name="pin", diameter_mm=4.0),))


def _on(state: Sequence[PointLoad], copy: str) -> list[PointLoad]:
    return [load for load in state if load.copy == copy]


def _left(loads: Sequence[PointLoad]) -> float:
    """Return what a part's loads lack of balance, as a share of the greatest, moments at 10 mm."""
    force = np.sum([load.force_n for load in loads], axis=0)
    turns = [np.cross(load.at_mm, load.force_n) + load.couple_n_mm for load in loads]
    most = max(float(np.linalg.norm(load.force_n)) for load in loads)
    return float(np.linalg.norm(np.concatenate([force, np.sum(turns, axis=0) / 10.0]))) / most


def _slider_crank(z_mm: float = 0.0) -> tuple[list[Any], tuple[PathStop, ...]]:
    """Return an upright crank of 20 mm and a link down to a slide at x = 50; the link may lie ``z_mm`` above."""
    joints = [
        turning(("base", "crank"), (0, 0)),
        turning(("crank", "link"), (0, 20, z_mm)),
        turning(("link", "slide"), (50, 0, z_mm)),
        sliding(("base", "slide"), (50, 0)),
    ]
    path = PointStop(copy="base", at_mm=(400.0, 20.0, 0.0)), PointStop(copy="crank", at_mm=(0.0, 20.0, 0.0))
    return joints, path


def _states(job: Job, joints: Sequence[Any], path: tuple[PathStop, ...], tip: Any, **more: Any) -> Any:
    """Return the states of a cord at 40 N of grip, or why they are not told."""
    one, joint = driven(job, mechanism(joints), joints[0].name, more.get("places", [0.0]), path, tip)
    grips = more.get("grips_n", (40.0, 40.0))
    return loop_states(one, [joint], more.get("friction", SMOOTH), grips, more.get("kept_n", math.inf))


@pytest.mark.parametrize("z_mm", [0.0, 6.0])
def test_a_slider_cranks_link_is_pressed_by_the_grip_over_the_cosine_of_its_slope(job: Job, z_mm: float) -> None:
    """F / cos(phi), textbook statics of a two-force member: 40 N at the slide, tan(phi) = 20 / 50, on both its pins.

    Also where the link lies beside crank and slide: its pins then pass couples as well.
    """
    joints, path = _slider_crank(z_mm)
    (state,) = _states(job, joints, path, ("slide", (50.0, 0.0, 0.0)))
    link = _on(state, "link")
    along = 40.0 / math.cos(math.atan2(20.0, 50.0))

    assert [float(np.linalg.norm(load.force_n[:2])) for load in link] == pytest.approx([along, along], rel=1e-3)
    assert [load.over for load in link] == [("b1",), ("b1",)]
    for copy in ("crank", "link", "slide"):
        assert _left(_on(state, copy)) < 0.002


HOOK_MM = (-14.0, 0.0, 0.0)


def test_a_four_bars_coupler_is_pressed_as_its_transmission_angle_says(job: Job) -> None:
    """Rocker moment over c sin(mu), mu between coupler and rocker (textbook, from memory), at every place of a range.

    And each link is in balance, and pull x travel = grip x way (virtual work), both ways measured between two places.
    """
    of, tip = toggle()
    path = PointStop(copy="base", at_mm=(-14.0, 60.0, 0.0)), PointStop(copy="handle", at_mm=HOOK_MM)
    for deg in (0.0, -20.0, -40.0):
        one, joint = driven(job, of, "base to handle", [deg], path, ("arm", tip))
        states = loop_states(one, [joint], SMOOTH, (20.0, 20.0), math.inf)
        assert not isinstance(states, str)
        (state,) = states
        here = joint.motions[0].here
        pins = [here[copy].point(at) for copy, at in (("handle", (0.0, 20.0, 0.0)), ("arm", _knee(of)))]
        base = np.array((60.0, 0.0, 0.0))
        bar, arm = np.subtract(pins[1], pins[0]), np.subtract(pins[1], base)
        sine = abs(np.cross(bar, arm)[2]) / (50.0 * 35.0)
        asked = 20.0 * 60.0 / (35.0 * sine)

        assert [np.linalg.norm(load.force_n) for load in _on(state, "coupler")] == pytest.approx([asked] * 2, rel=2e-3)
        assert max(_left(_on(state, copy)) for copy in ("handle", "coupler", "arm")) < 0.005
        drawn = next(load for load in _on(state, "handle") if load.at_mm == pytest.approx(HOOK_MM, abs=1e-6))
        ends = [
            (m["handle"].point(HOOK_MM), m["arm"].point(tip)) for m in (joint.motions[0].before, joint.motions[0].after)
        ]
        travel = abs(math.dist(ends[0][0], path[0].at_mm) - math.dist(ends[1][0], path[0].at_mm))
        assert np.linalg.norm(drawn.force_n) * travel == pytest.approx(
            20.0 * math.dist(ends[0][1], ends[1][1]), rel=0.01
        )


def _knee(of: Any) -> tuple[float, float, float]:
    """Return where the coupler meets the arm as drawn."""
    return next(joint.at_mm for joint in of.joints if joint.name == "coupler to arm")  # type: ignore[no-any-return]


def _toggle_states(job: Job, places: Sequence[float], grips_n: tuple[float, float], kept_n: float) -> Any:
    """Return the states of the toggle clamp at some places, and the joint that leads it."""
    of, tip = toggle()
    path = PointStop(copy="base", at_mm=(-14.0, 60.0, 0.0)), PointStop(copy="handle", at_mm=HOOK_MM)
    one, joint = driven(job, of, "base to handle", places, path, ("arm", tip))
    return loop_states(one, [joint], SMOOTH, grips_n, kept_n), joint, of


def _off_mm(a: Sequence[float], b: Sequence[float]) -> float:
    """Return how far the handle's axis lies from a line."""
    return float(abs(a[0] * b[1] - a[1] * b[0])) / math.dist(a[:2], b[:2])


def test_near_its_dead_point_a_toggle_presses_its_links_as_hard_as_the_kept_pull_builds_up(job: Job) -> None:
    """The handle in balance, by hand: coupler = pull x the cord's arm / the coupler's arm about the handle's axis.

    Half a degree short of in line the coupler's arm is a quarter of a mm. The hardest grip bounds it, the wanted one
    (here 40 N in the coupler: 60 mm of arm against 30 mm) is held in any case.
    """
    most = []
    for grips_n in ((20.0, 20.0), (20.0, 1000.0), (20.0, 40.0)):
        states, joint, of = _toggle_states(job, [-59.5], grips_n, 10.0)
        most.append(max(float(np.linalg.norm(load.force_n)) for state in states for load in _on(state, "coupler")))
    here = joint.motions[0].here
    lever = _off_mm(here["handle"].point((0.0, 20.0, 0.0)), here["arm"].point(_knee(of)))
    asked = 10.0 * _off_mm((-14.0, 60.0), here["handle"].point(HOOK_MM)) / lever

    assert most[0] == pytest.approx(40.0, rel=0.05)
    assert most[1] == pytest.approx(asked, rel=0.01)
    assert most[1] > 4.0 * most[0]
    assert most[2] == pytest.approx(2.0 * most[0], rel=1e-3)


def test_beyond_its_dead_point_a_place_tells_nothing(job: Job) -> None:
    """What holds there is not the cord: the place is left out here, and told by the cord's own words."""
    before, beyond = (_toggle_states(job, [*more, -30.0, 0.0], (20.0, 20.0), 10.0)[0] for more in ([], [-66.0]))

    assert before == beyond


def test_the_range_of_friction_counts(job: Job) -> None:
    """With friction the cord pulls harder for the same grip: that state is among the worst."""
    joints, path = _slider_crank()
    rough = Friction(pin_ratio=0.3)
    smooth, most = (
        _states(job, joints, path, ("slide", (50.0, 0.0, 0.0)), friction=(Friction(), Friction(), last))
        for last in (Friction(), rough)
    )
    pulls = [
        max(max(np.abs(load.force_n)) for state in states for load in _on(state, "crank")) for states in (smooth, most)
    ]

    assert pulls[1] > 1.02 * pulls[0]
    assert all(_left(_on(state, copy)) < 0.02 for state in most for copy in ("link", "slide"))


def test_two_couplers_side_by_side_are_not_told(job: Job) -> None:
    """Either may take the whole, or one pull what the other pushes: statics do not tell, so nothing is told."""
    joints, path = _slider_crank()
    twin = [replace(joints[1], name="crank to twin", parts=("crank", "twin"))]
    twin.append(replace(joints[2], name="twin to slide", parts=("twin", "slide")))

    assert _states(job, [*joints, *twin], path, ("slide", (50.0, 0.0, 0.0))) == NOT_STATICS


def test_links_that_no_cord_drives_are_named_with_why() -> None:
    """All parts of the loop, whichever they are; none where a cord tells the whole of it."""
    of, _ = toggle()
    names = [joint.name for joint in of.joints]

    untold = untold_links(of, [])

    assert set(untold) == {"base", "handle", "coupler", "arm"}
    assert all(NO_CORD in why for why in untold.values())
    assert untold_links(of, [(names[:1], "")]) == {}
    assert "it jams" in untold_links(of, [(names[:1], ""), (names[3:], "it jams")])["coupler"]

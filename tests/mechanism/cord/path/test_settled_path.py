"""Channels and wraps settle as a person would lay the cord."""

from __future__ import annotations

from planner.mechanism.cord.path.path_stop import LineStop, PathStop, PointStop, WrapStop
from planner.mechanism.cord.path.settled_path import settled
from tests.mechanism.cord.hinged import hinge

Z = (0.0, 0.0, 1.0)


POSES = [hinge(0.0), hinge(-60.0), hinge(60.0)]


def at(copy: str, x: float, y: float) -> PathStop:
    return PointStop(copy=copy, at_mm=(x, y, 0.0))


def wrap(x: float, y: float, radius_mm: float) -> PathStop:
    return WrapStop(copy="base", axis=Z, centre_mm=(x, y, 0.0), drawn_mm=radius_mm)


def senses(*stops: PathStop) -> list[int]:
    return [stop.sense for stop in settled(stops, POSES, 1.0, 1.0) if isinstance(stop, WrapStop)]


def test_channels_are_run_through_the_short_way() -> None:
    """However their lines were measured, the cord does not turn back at any mouth."""
    there = tuple((float(x), 5.0, 0.0) for x in (-80, -70, -60))
    back = tuple((float(x), 5.0, 0.0) for x in (-20, -30, -40))
    lines = [LineStop(copy="base", line_mm=line) for line in (there[::-1], back)]
    found = settled([at("base", -100.0, 5.0), *lines, at("jaw", 0.0, 10.0)], POSES, 1.0, 1.0)

    assert [stop.line_mm for stop in found if isinstance(stop, LineStop)] == [there, back[::-1]]


def test_a_wrap_beside_the_straight_way_is_gone_round_on_its_far_side() -> None:
    """A pulley above the line from hand to hook bends the cord upward, since a job names no pulley for nothing."""
    assert senses(at("base", -100.0, 0.0), wrap(-50.0, 20.0, 5.0), at("jaw", 0.0, 15.0)) == [-1]
    assert senses(at("base", -100.0, 0.0), wrap(-50.0, -20.0, 5.0), at("jaw", 0.0, 15.0)) == [1]


def test_a_post_that_the_cord_meets_only_at_one_end_of_the_range_is_passed_the_short_way() -> None:
    """Free at the drawn place, touched when the jaw is turned: both sides let it touch, so the shorter one is taken."""
    path = [at("base", -40.0, 10.0), wrap(-10.0, 4.0, 3.0), at("jaw", 0.0, 12.0)]
    (_, post, _) = settled(path, [hinge(0.0), hinge(-80.0)], 1.0, 1.0)

    assert isinstance(post, WrapStop)
    assert post.sense == -1


def test_more_wraps_than_can_be_tried_in_all_combinations_still_touch() -> None:
    """Ten pegs in a zigzag: the cord goes over one and under the next."""
    pegs = [wrap(-100.0 + 10.0 * k, 6.0 * (-1) ** k, 2.0) for k in range(10)]

    assert senses(at("base", -110.0, 0.0), *pegs, at("base", 0.0, 0.0)) == [-1, 1] * 5

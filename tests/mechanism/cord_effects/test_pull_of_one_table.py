"""At the hand: every finger closes from open to closed together, and asks what its hardest joint needs."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from planner.mechanism.cord_effects import pull_of_one_table
from planner.mechanism.cord_effects.cord_moves import cord_moves
from planner.mechanism.cord_effects.pull_of_one_table import hand_curve
from planner.mechanism.force.pull_range import PullRange
from tests.mechanism.cord_effects.one_jaw import one_jaw


def _pulled(driven: str, closed: int, *, on_stop: bool = False) -> Any:
    """Return one joint of a finger whose run is closed at one of its ends; only what is read of it."""
    run = SimpleNamespace(closed=closed)
    joint = SimpleNamespace(pull=SimpleNamespace(run=run), on_stop=on_stop)
    return SimpleNamespace(way=SimpleNamespace(driven=driven), joint=joint)


def _range(*pulls_n: float) -> PullRange:
    """Return a pull at so many angles, the same with every friction."""
    return PullRange(angles_deg=tuple(range(len(pulls_n))), low_n=pulls_n, expected_n=pulls_n, high_n=pulls_n)


@pytest.mark.parametrize(("closed", "summed"), [(0, (6.0, 14.0)), (1, (11.0, 9.0))])
def test_fingers_that_close_the_other_way_round_are_met_at_the_same_moment(
    closed: int, summed: tuple[float, float]
) -> None:
    """5 and 8 N of one finger, 1 and 6 N of the other: added from open to closed, whichever angle is closed."""
    pulled = [_pulled("jaw", 0), _pulled("jaw#2", closed)]
    cord: Any = SimpleNamespace(equaliser=None)

    curve = hand_curve(cord, 2, pulled, [_range(5.0, 8.0), _range(1.0, 6.0)])

    assert tuple(point[2] for point in curve) == pytest.approx(summed)


def test_the_hardest_joint_of_a_finger_counts_and_a_lost_finger_is_as_hard() -> None:
    """Joints of 3 and 7 N on one finger; two more fingers whose way is not known pull 7 N as well."""
    cord: Any = SimpleNamespace(equaliser=None)

    curve = hand_curve(cord, 3, [_pulled("tip", 0), _pulled("tip", 0)], [_range(3.0), _range(7.0)])

    assert curve[0][2] == pytest.approx(21.0)


def test_a_joint_that_may_rest_on_its_stop_makes_the_pull_a_range() -> None:
    """Joints of 3 and 7 N, the harder one before a stop: 3 N where it rests there, 7 N where it does not."""
    cord: Any = SimpleNamespace(equaliser=None)

    curve = hand_curve(cord, 1, [_pulled("tip", 0), _pulled("tip", 0, on_stop=True)], [_range(3.0), _range(7.0)])

    assert curve[0][1:] == pytest.approx((3.0, 7.0, 7.0))


def test_the_hardest_grip_is_that_of_the_pull_that_the_easiest_angle_needs(tmp_path: Path) -> None:
    """A pull that builds up 10 N with the least friction where that is easiest builds up no more anywhere."""
    device = one_jaw(tmp_path)
    job = device.with_cord()
    (move,) = cord_moves(job, device.solids, device.strung(job), 1.0).cords
    easiest = min(point[1] for point in move.curve_n)
    job = replace(job, use=replace(job.use, pull_n=easiest / job.limits.cord_share.value))
    (kept,) = cord_moves(job, device.solids, device.strung(), 1.0).cords

    assert kept.grip_for_n is not None
    assert kept.grip_for_n[-1] == pytest.approx(10.0, abs=1e-6)
    assert kept.grip_for_n[3] < 10.0


def test_over_a_dead_point_the_hardest_grip_is_that_of_the_other_places(monkeypatch: pytest.MonkeyPatch) -> None:
    """12 and 90 N before a dead point: 90, by which parts are judged; it was told as 12, the least of all."""
    ends = [(grip, grip) for grip in (12.0, 90.0, math.inf)]
    places = [(end, end, end) for end in ends]
    monkeypatch.setattr(pull_of_one_table, "chain_grips", lambda *_: places)
    job: Any = SimpleNamespace(
        use=SimpleNamespace(pull_n=100.0), limits=SimpleNamespace(cord_share=SimpleNamespace(value=0.2))
    )
    joints: Any = [SimpleNamespace(tip="jaw")]

    kept = pull_of_one_table.kept_grip(job, SimpleNamespace(equaliser=None), 1, joints, (None, None, None))  # type: ignore[arg-type]

    assert kept == (20.0, 12.0, 12.0, 12.0, 90.0)

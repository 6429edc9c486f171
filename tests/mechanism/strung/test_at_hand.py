"""Several cords of one table at one hand, against sums by hand."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import cast

import pytest

from planner.mechanism.force.driven_joint import DrivenJoint
from planner.mechanism.force.pull_range import PullRange
from planner.mechanism.strung.at_hand import Pulled, fingers_of, hand_curve
from planner.mechanism.strung.strung_cord import StrungCord
from tests.mechanism.strung.one_jaw import two_jaws


def flat(*pulls_n: float) -> PullRange:
    """Return pulls at three places, alike for every friction."""
    return PullRange(angles_deg=(0.0, 20.0, 40.0), low_n=pulls_n, expected_n=pulls_n, high_n=pulls_n)


def test_fingers_add_up_place_by_place_and_one_without_a_way_counts_as_the_hardest(tmp_path: Path) -> None:
    """1, 2, 3 N and 5, 5, 4 N are 6, 7, 7 N in one hand; with one way of two known it is twice the known one."""
    pair = two_jaws(tmp_path)
    strung = pair.strung()
    ways = [strung[name] for name in ("pull", "pull#2")]
    known = [one for one in ways if isinstance(one, StrungCord)]
    pulled = [Pulled(way=one, leg=one.legs[0], joint=cast("DrivenJoint", _Joint(one))) for one in known]
    cord = known[0].cord

    assert fingers_of(pair.job, known[0]) == 2
    both = hand_curve(cord, 2, pulled, [flat(1.0, 2.0, 3.0), flat(5.0, 5.0, 4.0)])
    assert [point[1] for point in both] == pytest.approx([6.0, 7.0, 7.0])
    assert [point[0] for point in both] == [0.0, 20.0, 40.0]
    alone = hand_curve(cord, 2, pulled[:1], [flat(1.0, 2.0, 3.0)])
    assert [point[3] for point in alone] == pytest.approx([2.0, 4.0, 6.0])
    pulley = hand_curve(replace(cord, equaliser="pulley"), 2, pulled, [flat(1.0, 2.0, 3.0), flat(5.0, 5.0, 4.0)])
    assert [point[2] for point in pulley] == pytest.approx([10.0, 10.0, 8.0])


class _Joint:
    """A driven joint of which the cord's run alone is asked."""

    def __init__(self, one: StrungCord) -> None:
        self.pull = _Strung(one)


class _Strung:
    """A strung cord of which the run alone is asked."""

    def __init__(self, one: StrungCord) -> None:
        self.run = one.run(1.0)

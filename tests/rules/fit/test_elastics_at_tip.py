"""What elastics take at one tip, by moments about the joint, worked out by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.finding import Finding, Verdict
from planner.job import Cord, Use, read_limits
from planner.rules.fit.cord_force import cord_findings

TWO = Cord(name="return elastic", part="guide", diameter_mm=1.0, kind="elastic", count=2, force_n=6.0)
STRAIGHT = Cord(name="pull cord", part="deck", diameter_mm=1.0, lever=1.0)


def pull_against(elastic: Cord, copies: dict[str, int], pull_n: float = 400.0) -> Finding:
    """Return what is found of a straight cord with 40 N of grip against elastics."""
    return cord_findings([STRAIGHT, elastic], Use(load_n=40.0, pull_n=pull_n), read_limits(), copies)[0]


@pytest.mark.parametrize(
    ("drives", "copies", "pull"),
    [("jaw", {"jaw": 1}, 52.0), ("jaw", {"jaw": 2}, 46.0), ("jaw#2", {"jaw": 2}, 52.0), ("", {}, 52.0)],
)
def test_each_elastic_of_a_table_pulls(drives: str, copies: dict[str, int], pull: float) -> None:
    """Two of 6 N at one tip take 12 N, and 6 N where each opens its own jaw: it once was 6 N whatever stood there."""
    assert pull_against(replace(TWO, drives=drives), copies).measured == pytest.approx(pull)


def test_three_elastics_on_two_jaws_leave_two_on_one() -> None:
    """40 + 2 · 6 N: the harder finger decides."""
    assert pull_against(replace(TWO, count=3, drives="jaw"), {"jaw": 2}).measured == pytest.approx(52.0)


def test_what_two_elastics_move_is_asked_where_it_decides() -> None:
    """A fifth of 250 N is 50 N: 46 N of one passes, 52 N of both does not; stated, it is go without a question."""
    unstated = pull_against(replace(TWO, lever=1.0), {"jaw": 2}, 250.0)
    stated = pull_against(replace(TWO, drives="jaw", lever=1.0), {"jaw": 2}, 250.0)

    assert (unstated.verdict, unstated.question) == (Verdict.HOLD, "Which part do the 2 of return elastic move?")
    assert (stated.verdict, stated.question) == (Verdict.GO, "")


def test_an_elastic_near_the_joint_takes_less_at_the_tip() -> None:
    """Moments about the joint: 12 N at a sixth of the tip's arm are 2 N there; where nobody said so, it is asked."""
    near = pull_against(replace(TWO, drives="jaw", lever=6.0), {"jaw": 1}, 250.0)
    unstated = pull_against(replace(TWO, drives="jaw"), {"jaw": 1}, 250.0)

    assert near.measured == pytest.approx(42.0)
    assert near.verdict is Verdict.GO
    assert unstated.verdict is Verdict.HOLD
    assert unstated.question == "How many newtons at the tip hold against 12 N of return elastic?"

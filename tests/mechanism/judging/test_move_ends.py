"""What ends a range is told of the size at which it does, with what lies behind what may give way."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from planner.finding import Verdict
from planner.job import read_job
from planner.plan import movement, prepare, prepare_moves
from planner.rules import Rule
from tests.mechanism.hinge_job import JOINT, hinge

CORD = '[[cord]]\nname = "tie"\npart = "base"\ndiameter_mm = 1.0\npath = ["base:[5, {y}, 9]", "base:[{x}, {y}, 9]"]\n'


def _range_rule(folder: Path, needs: tuple[int, int], cord: str, *, alone: bool = False) -> Rule:
    """Return the rule about the hinge's range; ``alone``: as where nothing but movement is asked."""
    job = read_job(hinge(folder, JOINT.format(low=needs[0], high=needs[1]) + cord))
    today = date(2026, 11, 29)
    rules = prepare_moves(job, today).rules if alone else movement(prepare(job, today))[1]
    return next(rule for rule in rules if rule.rule == "move.range")


def test_a_block_behind_a_cord_is_no_less_a_stop(tmp_path: Path) -> None:
    """A cord lies before the block that the arm meets at 10.1 degrees: 15 are refused, 8 are asked about."""
    for high, verdict in ((15, Verdict.NO_GO), (8, Verdict.HOLD)):
        found = _range_rule(tmp_path, (-20, high), CORD.format(x=38, y=5)).at(1.0)
        assert found.verdict is verdict
    assert "the cord tie" in found.why


def test_what_is_in_the_way_is_told_of_the_size_at_which_it_is(tmp_path: Path) -> None:
    """10 degrees are reached as drawn; at 40 % a cord stops the arm before, where 40 sin t + 4 cos t = 11.6 - 0.5 / 0.4."""
    rule = _range_rule(tmp_path, (-20, 10), CORD.format(x=45, y=11.6))
    assert rule.at(1.0).verdict is Verdict.GO
    found = rule.at(0.4)
    assert found.verdict is Verdict.HOLD
    assert "the cord tie" in found.why
    assert found.measured == pytest.approx(9.2, abs=0.2)


@pytest.mark.parametrize("needs", [(-20, 15), (-20, 8)])
def test_asked_alone_a_range_is_told_as_in_the_whole_plan(tmp_path: Path, needs: tuple[int, int]) -> None:
    """Other sizes, which take most of the time, are not gone over: what is said of the drawn one is the same."""
    cord = CORD.format(x=38, y=5)
    assert _range_rule(tmp_path, needs, cord, alone=True).at(1.0) == _range_rule(tmp_path, needs, cord).at(1.0)

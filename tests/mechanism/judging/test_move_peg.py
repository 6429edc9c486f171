"""A printed peg turns in a printed bore where the printer leaves play enough; by hand on both sides of each limit."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.job import HandWork
from planner.mechanism.judging.move_peg import MovePeg
from planner.rules import WorkedBore

OFF, NEEDS = (0.1, 0.2, 0.3), 0.2


def _rule(bore_mm: float, *to_mm: float) -> MovePeg:
    works = tuple(HandWork(part="base", kind="drill", to_mm=mm, bores=("b1",)) for mm in to_mm)
    return MovePeg(
        part="base",
        feature="hinge",
        bore_mm=bore_mm,
        peg_mm=6.0,
        work=WorkedBore(works=works),
        off_mm=OFF,
        needs_mm=NEEDS,
    )


@pytest.mark.parametrize(
    ("bore", "verdict"),
    [(6.41, Verdict.GO), (6.39, Verdict.HOLD), (6.31, Verdict.HOLD), (6.29, Verdict.NO_GO), (6.0, Verdict.NO_GO)],
)
def test_the_printed_play_decides(bore: float, verdict: Verdict) -> None:
    """Printed 0.2 mm narrower the bore must be 6.4 mm; 6.3 mm does on a printer that takes 0.1 mm off only."""
    assert _rule(bore).at(1.0).verdict is verdict


def test_the_verdict_turns_where_the_play_that_grows_is_enough() -> None:
    """0.4 mm of drawn play is 0.4 s: less 0.2 mm it is enough from 100 %, less 0.1 mm from 75 % on."""
    rule = _rule(6.4)

    assert rule.turns() == pytest.approx((0.75, 1.0))
    assert [rule.at(s).verdict for s in (0.74, 0.76, 0.99, 1.01)] == [
        Verdict.NO_GO,
        Verdict.HOLD,
        Verdict.HOLD,
        Verdict.GO,
    ]


def test_its_remedy_holds() -> None:
    """Reamed to what it says, the peg turns at that size, and at a larger one it no longer does."""
    rule = _rule(6.0)
    assert "ream the bore to 6.2 mm" in rule.at(1.0).remedy
    reamed = _rule(6.0, 6.2)
    assert reamed.at(1.0).verdict is Verdict.GO
    assert reamed.at(1.02).verdict is Verdict.NO_GO
    assert any(1.0 <= s < 1.01 for s in reamed.turns())

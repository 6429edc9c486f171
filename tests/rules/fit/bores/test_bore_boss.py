"""The boss round a pilot, worked out by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.finding import Verdict
from planner.rules.fit.bores.bore_boss import BoreBoss
from planner.sourced import Sourced
from tests.rules.fit.bores.test_bore_tight import BORE

TIMES = Sourced(value=2.0, low=1.85, high=2.5, kind="memory", source="here")


def _boss(edge_mm: float) -> BoreBoss:
    """Return the rule for a 3 mm pilot of a 3.5 mm screw: the boss is 3 mm and twice the edge wide."""
    return BoreBoss(
        part="a",
        feature="b1",
        hardware="screw",
        screw_mm=3.5,
        bore=replace(BORE, edge_wall_mm=edge_mm),
        edge_mm=edge_mm,
        times=TIMES,
    )


@pytest.mark.parametrize(
    ("edge_mm", "verdict", "asks"),
    [
        (1.6, Verdict.NO_GO, False),
        (1.9, Verdict.NO_GO, True),
        (1.9999999, Verdict.GO, True),  # 2.0 as a mesh in single precision holds it
        (2.0, Verdict.GO, True),
        (3.0, Verdict.GO, False),
    ],
)
def test_a_boss_is_at_least_two_screws_wide(edge_mm: float, verdict: Verdict, *, asks: bool) -> None:
    """Twice 3.5 is 7.0 mm: 6.2 and 6.8 mm split, 7.0 and 9.0 mm hold; between 6.475 and 8.75 mm makes differ."""
    found = _boss(edge_mm).at(1.0)

    assert (found.verdict, bool(found.caution)) == (verdict, asks)
    assert found.measured == pytest.approx(3.0 + 2.0 * edge_mm)


def test_a_boss_grows_with_the_part_and_the_screw_does_not() -> None:
    """6.2 mm as drawn reaches 7.0 mm at 112.9 %, and the percent that is printed is enough."""
    boss = _boss(1.6)

    assert list(boss.turns()) == pytest.approx([7.0 / 6.2], abs=1e-5)
    assert "at a scale of 113.0 % or more, this boss by itself is wide enough" in boss.at(1.0).remedy
    assert boss.at(1.13).verdict is Verdict.GO

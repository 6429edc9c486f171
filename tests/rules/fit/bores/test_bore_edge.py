"""The wall beside a bore, by hand: as it prints, and after the drilling that its hardware asks for."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from planner.finding import Verdict
from planner.rules.fit.bores.bore_edge import BoreEdge
from planner.rules.fit.bores.bore_tight import BoreTight
from tests.rules.fit.bores.test_bore_tight import BORE, CASE

BARE = BoreEdge(
    part="a",
    feature="b1",
    bore=BORE,
    edge_mm=2.0,
    limit_mm=1.35,
    duty="load",
    case=None,
    source="test",
    undersize_mm=0.2,
)


@pytest.mark.parametrize(("s", "verdict"), [(0.676, Verdict.GO), (0.674, Verdict.NO_GO)])
def test_a_bore_that_nothing_claims_is_judged_as_it_is_drawn(s: float, verdict: Verdict) -> None:
    """2.0 mm beside it, 1.35 mm needed: enough from 67.5 %."""
    assert BARE.at(s).verdict is verdict
    assert BARE.verdict(s) is verdict


def test_drilling_takes_from_the_wall() -> None:
    """Drawn 3.0, printed 2.8, drilled to 3.1: the axis is 3.5 from the edge, 3.5 - 1.55 = 1.95 mm stay.

    At 90 % the axis is 3.15 mm from the edge and 1.60 mm stay. At 82 % drilling would leave 1.32 mm: ``bore.tight``
    says no to it, nothing is drilled, and 2.0 x 0.82 mm stay as printed.
    """
    rule = replace(BARE, case=CASE)

    assert [rule.at(s).measured for s in (1.0, 0.9)] == pytest.approx([1.95, 1.60])
    assert "after drilling" in rule.at(1.0).why
    assert rule.at(0.82).measured == pytest.approx(1.64)
    assert BoreTight(case=CASE).verdict(0.82) is Verdict.NO_GO


def test_it_turns_only_where_it_says() -> None:
    """Between its own turns the verdict stays what it is: every change over 1,000 sizes lies beside a turn."""
    rule = replace(BARE, case=CASE)
    sizes = [0.3 + k * 0.0017 for k in range(1000)]
    changes = [(a, b) for a, b in pairwise(sizes) if rule.verdict(a) is not rule.verdict(b)]

    assert changes
    assert all(any(a - 1e-6 <= turn <= b + 1e-6 for turn in rule.turns()) for a, b in changes)


def test_a_thin_wall_names_the_scale_at_which_it_suffices_and_where_it_is() -> None:
    """1.35 mm needed and 1.0 mm there: from 135 %; a bore that breaks out has no wall to grow, and no scale is named."""
    thin, open_ = replace(BARE, edge_mm=1.0), replace(BARE, edge_mm=0.0)
    there = replace(BARE, bore=replace(BORE, edge_at_mm=(1.0, 2.0, 3.0)))

    assert "at a scale of 135.0 % or more" in thin.at(1.0).remedy
    assert "at a scale" not in open_.at(1.0).remedy
    assert there.at(1.0).at_mm == (1.0, 2.0, 3.0)
    assert replace(there, bore=replace(BORE, edge_at_mm=None)).at(1.0).at_mm == BORE.centre_mm

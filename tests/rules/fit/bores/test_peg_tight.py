"""A printed peg in a printed bore, by hand: both scale, what the printer takes off the bore does not."""

from __future__ import annotations

import math

import pytest

from planner.finding import Verdict
from planner.job import JointKind
from planner.rules.fit.bores.peg_tight import PegTight
from planner.rules.fit.bores.worked_bore import WorkedBore
from planner.sourced import Sourced
from planner.survey import Bore, Peg


def _limit(value: float) -> Sourced:
    return Sourced(value=value, low=value, high=value, kind="common-practice", source="test")


def _rule(bore_mm: float, how: JointKind | None, edge_mm: float = 5.0) -> PegTight:
    """Return a peg of 8 mm in a bore; 0.2 mm come off the bore, and 0.2 mm of play are needed."""
    bore = Bore(
        id="b1",
        diameter_mm=bore_mm,
        drawn_diameter_mm=bore_mm,
        facets_n=64,
        depth_mm=5.0,
        axis=(0.0, 0.0, 1.0),
        centre_mm=(0.0, 0.0, 0.0),
        through=True,
        step_of=None,
        coverage_deg=360.0,
        edge_wall_mm=edge_mm,
    )
    return PegTight(
        part="lever",
        bore=bore,
        peg_part="base",
        peg=Peg(id="p1", diameter_mm=8.0, length_mm=10.0, axis=(0.0, 0.0, 1.0), centre_mm=(0.0, 0.0, 0.0)),
        in_place=True,
        how=how,
        need_mm=_limit(0.2),
        undersize_mm=_limit(0.2),
        edge_need_mm=1.0,
        work=WorkedBore(),
    )


@pytest.mark.parametrize(
    ("bore_mm", "percent", "play_mm", "fits"),
    [(8.5, 100.0, 0.3, True), (8.4, 100.0, 0.2, True), (8.4, 90.0, 0.16, False), (8.1, 100.0, -0.1, False)],
)
def test_play_is_the_bore_as_printed_less_the_peg(
    bore_mm: float, percent: float, play_mm: float, *, fits: bool
) -> None:
    """s d - u - s p: at 90 % a bore of 8.4 mm prints at 7.36 mm, the peg at 7.2 mm."""
    finding = _rule(bore_mm, "turns").at(percent / 100.0)

    assert finding.measured == pytest.approx(play_mm)
    assert (finding.verdict is Verdict.GO) is fits


@pytest.mark.parametrize(
    ("how", "edge_mm", "verdict"),
    [(None, 5.0, Verdict.HOLD), ("turns", 5.0, Verdict.GO_WITH_WORK), ("turns", 1.04, Verdict.NO_GO)],
)
def test_only_a_stated_joint_orders_work(how: JointKind | None, edge_mm: float, verdict: Verdict) -> None:
    """Unstated, it is a question and its remedy an "if"; stated, reaming 8.1 to 8.2 mm must leave the wall."""
    finding = _rule(8.1, how, edge_mm).at(1.0)

    assert finding.verdict is verdict
    assert bool(finding.question) is finding.remedy.startswith("if ") is (how is None)


def test_it_turns_where_the_play_is_just_enough() -> None:
    """(0.2 + 0.2) / (8.5 - 8.0) is 80 %: every change of the verdict lies at a turn."""
    rule = _rule(8.5, "turns")
    below, above = (rule.at(0.8 + off).verdict for off in (-1e-3, 1e-3))

    assert (below, above) == (Verdict.GO_WITH_WORK, Verdict.GO)
    assert any(math.isclose(turn, 0.8, abs_tol=1e-4) for turn in rule.turns())

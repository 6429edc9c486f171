"""A length from a mesh file meets a round limit, in the answer of a rule as in the window."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from planner.job import read_limits
from planner.rules import Rule
from planner.rules.fit.bores.bore_boss import BoreBoss
from planner.rules.fit.bores.bore_edge import BoreEdge
from planner.rules.fit.bores.bore_loose import BoreLoose
from planner.rules.fit.bores.bore_tight import BoreTight
from planner.rules.fit.fitted_openings import GapTight, SlotTight
from planner.rules.fit.walls.thin_wall_rule import ThinWallRule
from planner.rules.rule import at_least, at_most, just_reaches, just_within
from planner.size import window
from planner.sourced import Sourced
from planner.survey import ThinPlace
from tests.rules.fit.bores.test_bore_tight import BORE, CASE

LIMITS = read_limits()
TWICE = Sourced(value=2.0, low=1.9, high=2.1, kind="memory", source="here")
FILE_MM, SHORT_MM = 3e-5, 2e-4
"""What single precision loses of a length between corners 500 mm away (IEEE 754), and what it does not."""


def _edge(off_mm: float) -> Rule:
    return BoreEdge(
        part="a", feature="b1", bore=BORE, edge_mm=1.35 - off_mm, limit_mm=1.35, duty="load", case=None, source="here"
    )


def _boss(off_mm: float) -> Rule:
    edge = (7.0 - BORE.drawn_diameter_mm - off_mm) / 2.0
    return BoreBoss(part="a", feature="b1", hardware="x", screw_mm=3.5, bore=BORE, edge_mm=edge, times=TWICE)


def _tight(off_mm: float) -> Rule:
    printed = CASE.need_mm + CASE.undersize_mm.value - off_mm
    bore = replace(BORE, diameter_mm=printed, drawn_diameter_mm=printed, edge_wall_mm=0.1)
    return BoreTight(case=replace(CASE, bore=bore))


def _loose(off_mm: float) -> Rule:
    printed = CASE.most_mm + CASE.undersize_mm.value + off_mm
    bore = replace(BORE, diameter_mm=printed, drawn_diameter_mm=printed, edge_wall_mm=0.1)
    return BoreLoose(case=replace(CASE, bore=bore, larger=(), bush_mm=99.0))


def _wall(off_mm: float) -> Rule:
    place = ThinPlace(thickness_mm=1.35 - off_mm, at_mm=(0, 0, 0), between="two faces", beside=("b1",), below=())
    return ThinWallRule(
        part="a",
        duty="load",
        duty_stated=True,
        places=(place,),
        line_width_mm=0.45,
        lines=LIMITS.wall_load_lines,
        limits=LIMITS,
    )


def _gap(off_mm: float) -> Rule:
    return GapTight(part="a", feature="gap", gap_mm=2.0 - off_mm, least_mm=TWICE, calibrated=True)


def _slot(off_mm: float) -> Rule:
    return SlotTight(
        part="a",
        feature="strap",
        strap="strap",
        opening_mm=22.0 - off_mm,
        strip_mm=20.0,
        narrower_mm=(),
        clearance_mm=TWICE,
        at_mm=(0, 0, 0),
    )


@pytest.mark.parametrize("made", [_edge, _boss, _tight, _loose, _wall, _gap, _slot])
def test_what_a_file_loses_decides_nothing(made: Callable[[float], Rule]) -> None:
    """3e-5 mm short of a limit still meets it, 2e-4 mm does not, and the window says so of 100 % as the rule does."""
    for off_mm, good in ((-FILE_MM, True), (0.0, True), (FILE_MM, True), (SHORT_MM, False)):
        rule = made(off_mm)
        assert rule.at(1.0).verdict.passes is good, off_mm
        assert any(one.holds(100.0) for one in window([rule], 100.0).workable.intervals) is good, off_mm


def test_the_slack_is_what_single_precision_loses() -> None:
    """The difference of any two corners out to 500 mm, rounded as a binary STL does it (numpy), meets what was meant."""
    dice = np.random.default_rng(5)
    low, length = dice.uniform(-500, 490, 4000), dice.choice([1.35, 2.0, 6.0, 0.9, 10.0], 4000)
    held = (low + length).astype(np.float32).astype(float) - low.astype(np.float32).astype(float)

    assert all(
        at_least(measured, limit) and at_most(measured, limit) for measured, limit in zip(held, length, strict=True)
    )
    assert float(np.abs(held - length).max()) > 1e-5


@pytest.mark.parametrize("limit", [0.1, 1.35, 6.0, 250.0])
def test_a_verdict_turns_where_it_is_said_to(limit: float) -> None:
    """The turns lie on the good side of where the comparison itself turns."""
    assert at_least(just_reaches(limit), limit)
    assert not at_least(just_reaches(limit) - 1e-8, limit)
    assert at_most(just_within(limit), limit)
    assert not at_most(just_within(limit) + 1e-8, limit)

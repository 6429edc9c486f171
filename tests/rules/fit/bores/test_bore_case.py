"""Random bores with all hardware of the stock: turns are complete, and the size that a no-go names works."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.assembly import drilled_mm, printed_ends
from planner.finding import Verdict
from planner.job import Fit, HardwareKind, StockSize, read_limits, read_tables
from planner.rules.fit.bores.bore_case import BoreCase, Stock
from planner.rules.fit.bores.bore_loose import BoreLoose
from planner.rules.fit.bores.bore_tight import BoreTight
from tests.rules.fit.bores.test_bore_tight import BORE, CASE

LIMITS, TABLES = read_limits(), read_tables()
FITTED: list[tuple[HardwareKind, Fit]] = [
    ("machine-screw", "sliding"),
    ("machine-screw", "turning"),
    ("machine-screw", "held"),
    ("machine-screw", "pilot"),
    ("wood-screw", "pilot"),
    ("dowel-pin", "held"),
    ("binding-post", "turning"),
]
EVERY = [(kind, fit, size) for kind, fit in FITTED for size in TABLES.sizes(kind)]


def _stock(kind: HardwareKind, fit: Fit, size: StockSize) -> Stock:
    """Return what one stock size asks of a bore."""
    diameter = size.diameter_mm.value
    ends, drill = (find(diameter, kind, fit, LIMITS, TABLES) for find in (printed_ends, drilled_mm))
    assert isinstance(ends, tuple)
    assert isinstance(drill, float)
    boss = LIMITS.boss_ratio.value * diameter if fit == "pilot" else 0.0
    return Stock(label=size.label, diameter_mm=diameter, need_mm=ends[0], most_mm=ends[1], drill_mm=drill, boss_mm=boss)


def _case(kind: HardwareKind, fit: Fit, size: StockSize, bore_times: float, edge_mm: float) -> BoreCase:
    """Return a bore so many times as wide as its hardware, with all other sizes of the stock beside it."""
    own, others = _stock(kind, fit, size), [_stock(kind, fit, one) for one in TABLES.sizes(kind) if one is not size]
    drawn = bore_times * own.diameter_mm
    return replace(
        CASE,
        fit=fit,
        bore=replace(BORE, diameter_mm=drawn, drawn_diameter_mm=1.002 * drawn, edge_wall_mm=edge_mm),
        need_mm=own.need_mm,
        most_mm=own.most_mm,
        drill_mm=own.drill_mm,
        bush_mm=own.need_mm + 1.6,
        larger=tuple(one for one in others if one.diameter_mm > own.diameter_mm),
        smaller=tuple(one for one in reversed(others) if one.diameter_mm < own.diameter_mm),
    )


@given(made=st.sampled_from(EVERY), bore_times=st.floats(0.4, 2.0), edge_mm=st.floats(0.3, 6.0))
def test_verdicts_turn_only_at_turns_and_named_sizes_work(
    made: tuple[HardwareKind, Fit, StockSize], bore_times: float, edge_mm: float
) -> None:
    """Between two neighbouring turns a verdict stays, and the percent that a no-go names passes its own rule."""
    case = _case(*made, bore_times, edge_mm)
    for rule in (BoreTight(case=case), BoreLoose(case=case)):
        turns = sorted({0.2, *(turn for turn in rule.turns() if 0.2 < turn < 4.0), 4.0})
        for low, high in pairwise(turns):
            asked = [low + (high - low) * share for share in (0.05, 0.5, 0.95)]
            assert high - low < 1e-9 or len({rule.verdict(s) for s in asked}) == 1
            found = rule.at(asked[1])
            named = re.search(r"at a scale of ([\d.]+) % or (?:more|less), this \w+ by itself is", found.remedy)
            if found.verdict is Verdict.NO_GO:
                assert named is not None
                assert rule.at(float(named[1]) / 100.0).verdict.passes


@pytest.mark.parametrize("made", EVERY, ids=lambda made: f"{made[0]} {made[1]} {made[2].label}")
def test_what_is_drilled_fits(made: tuple[HardwareKind, Fit, StockSize]) -> None:
    """Every drill that is named makes a bore within both ends of its own hardware."""
    stock = _stock(*made)

    assert stock.need_mm <= stock.drill_mm <= stock.most_mm


def test_bores_that_lie_alike_ask_one_question() -> None:
    """One undersize holds for all bores with a vertical axis, whatever goes in; those with a horizontal one have theirs."""
    other = replace(CASE, part="b", hardware="pin", bore=replace(BORE, id="b2", drawn_diameter_mm=6.0))

    assert other.question() == CASE.question()
    assert replace(other, upright=False).question() != CASE.question()


def test_a_bore_is_drilled_where_a_hand_reaches_and_enough_wall_is_left() -> None:
    """3 mm with 2 mm of wall, 1.35 needed: 3.1 leaves 1.95, 4.5 leaves 1.25; no hand drills 14 mm, whatever is left."""
    wide = replace(CASE, bore=replace(BORE, edge_wall_mm=50.0))

    assert CASE.drillable(1.0, 3.1)
    assert not CASE.drillable(1.0, 4.5)
    assert wide.drillable(1.0, 13.0)
    assert not wide.drillable(1.0, 14.0)


def test_a_boss_is_as_wide_as_the_bore_and_the_wall_on_both_sides() -> None:
    """3 mm with 2 mm of wall each side make a boss of 7 mm: a screw that needs 7 mm may go in, one that needs 7.2 not."""
    stock = Stock(label="M3", diameter_mm=3.0, need_mm=2.0, most_mm=4.0, drill_mm=2.5, boss_mm=7.0)
    bare = replace(CASE, bore=replace(BORE, drawn_diameter_mm=3.0, edge_wall_mm=2.0))

    assert bare.goes_in(1.0, 3.0, stock)
    assert not bare.goes_in(1.0, 3.0, replace(stock, boss_mm=7.2))
    assert replace(bare, bore=replace(bare.bore, edge_wall_mm=None)).goes_in(1.0, 3.0, replace(stock, boss_mm=99.0))


def test_a_blind_bore_is_drilled_no_deeper_than_it_is_at_this_size() -> None:
    """10 mm deep as drawn are 12.0 mm at 120 %; a through bore has no stop, one with others in its stack names none."""
    blind = replace(CASE, bore=replace(BORE, through=False, depth_mm=10.0), floored=False, stepped=False)
    through = replace(blind, bore=replace(blind.bore, through=True))

    assert "no deeper than 12.0 mm (set a depth stop)" in blind.drilling(1.2, 4.2)
    assert "depth stop" not in through.drilling(1.2, 4.2)
    assert "no deeper than 12.0 mm" in replace(through, floored=True).drilling(1.2, 4.2)
    assert "no deeper than the bore is now" in replace(blind, stepped=True).drilling(1.2, 4.2)

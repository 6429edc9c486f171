"""A printed peg in a printed bore, by hand: both scale, what the printer takes off the bore does not."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from planner.finding import Verdict
from planner.job import JointKind
from planner.rules.fit.bores.peg_play import PegPlay
from planner.rules.fit.bores.peg_tight import PegTight
from planner.rules.fit.bores.worked_bore import WorkedBore
from planner.sourced import Sourced
from planner.survey import Bore, Peg


def _limit(value: float) -> Sourced:
    return Sourced(value=value, low=value, high=value, kind="common-practice", source="test")


def _rule(
    bore_mm: float,
    how: JointKind | None,
    edge_mm: float = 5.0,
    factors: tuple[float | None, float | None] = (None, None),
) -> PegTight:
    """Return a peg of 8 mm in a bore; 0.2 mm come off the bore, and 0.2 to 0.6 mm of play are asked for."""
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
        need_mm=_limit(0.2 if how != "pressed" else 0.0),
        most_mm=_limit(0.6 if how != "pressed" else 0.1),
        edge_need_mm=1.0,
        drill_most_mm=13.0,
        scrape_mm=0.5,
        play=PegPlay(
            bore_mm=bore_mm,
            peg_mm=8.0,
            work=WorkedBore(),
            undersize_mm=_limit(0.2),
            bore_factor=factors[0],
            peg_factor=factors[1],
        ),
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


@pytest.mark.parametrize(
    ("factors", "s", "play_mm", "verdict"),
    [
        ((None, 1.0), 0.85, -0.975, Verdict.GO_WITH_WORK),
        ((None, 1.0), 1.3, 2.85, Verdict.HOLD),
        ((1.0, None), 1.3, -2.1, Verdict.GO_WITH_WORK),
        ((1.0, 1.0), 0.6, 0.3, Verdict.GO),
    ],
)
def test_each_part_has_its_own_scale(
    factors: tuple[float | None, float | None], s: float, play_mm: float, verdict: Verdict
) -> None:
    """A peg of 8 mm in a bore of 8.5 mm where one of the two parts keeps its size: 8.5 x 0.85 - 0.2 - 8, and so on."""
    finding = _rule(8.5, "turns", 20.0, factors).at(s)

    assert finding.measured == pytest.approx(play_mm)
    assert finding.verdict is verdict


def test_a_press_fit_that_came_out_wide_is_glued() -> None:
    """8.5 - 0.2 - 8 = 0.3 mm of play hold nothing; 8.3 mm of bore leave 0.1 mm, which is what a held fit may have."""
    wide, near = (_rule(bore_mm, "pressed").at(1.0) for bore_mm in (8.5, 8.3))

    assert (wide.verdict, near.verdict) == (Verdict.GO_WITH_WORK, Verdict.GO)
    assert 'how = "glued"' in wide.remedy


@pytest.mark.parametrize("factors", [(None, None), (None, 1.0), (1.0, None), (None, 0.7), (1.4, None)])
@pytest.mark.parametrize("how", ["turns", "pressed", None])
def test_every_change_of_the_verdict_lies_at_a_turn(
    how: JointKind | None, factors: tuple[float | None, float | None]
) -> None:
    """From 50 to 200 % in steps of 0.5 %: where the verdict of two neighbours differs, a turn lies between them."""
    rule = _rule(8.4, how, 1.2, factors)
    scales = [0.5 + 0.005 * step for step in range(301)]
    for low, high in pairwise(scales):
        if rule.at(low).verdict is not rule.at(high).verdict:
            assert any(low - 1e-9 <= turn <= high + 1e-9 for turn in rule.turns()), (low, high)


def test_what_misses_by_less_than_a_hand_can_tell_is_tried_first() -> None:
    """8.18 - 0.2 - 8 = -0.02 mm for a press fit: nobody reams two hundredths; 0.1 mm are reamed at once."""
    near, far = (_rule(bore_mm, "pressed").at(1.0) for bore_mm in (8.18, 8.1))

    assert near.remedy.startswith("try it first; if it binds, ream b1 to 8.00 mm")
    assert far.remedy.startswith("ream b1 to 8.00 mm")
    assert "equal within" in near.why
    assert "needs 0.00" not in far.why


@pytest.mark.parametrize(("short_mm", "verdict"), [(0.45, Verdict.GO_WITH_WORK), (0.6, Verdict.NO_GO)])
def test_a_wide_bore_is_not_reamed_by_more_than_sandpaper_takes(short_mm: float, verdict: Verdict) -> None:
    """A peg of 20 mm: over 13 mm no hand turns a reamer, and half a millimetre is scraped; a peg of 8 mm is reamed."""
    narrow = _rule(8.4 - short_mm, "turns")
    wide = replace(
        narrow,
        bore=replace(narrow.bore, edge_wall_mm=None),
        peg=replace(narrow.peg, diameter_mm=20.0),
        play=replace(narrow.play, peg_mm=20.0, bore_mm=20.4 - short_mm),
    )

    assert narrow.at(1.0).verdict is Verdict.GO_WITH_WORK
    assert wide.at(1.0).verdict is verdict
    assert ("draw the peg 0.60 mm thinner" in wide.at(1.0).remedy) is (verdict is Verdict.NO_GO)

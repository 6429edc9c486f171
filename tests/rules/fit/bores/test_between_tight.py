"""A tenon in its mortise, by hand: both scale, what the printer takes off the room does not."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from planner.finding import Verdict
from planner.job import JointKind
from planner.rules.fit.bores.between_tight import BetweenTight
from planner.rules.fit.bores.peg_play import PegPlay
from planner.rules.fit.bores.worked_bore import WorkedBore
from planner.sourced import Sourced


def _limit(value: float) -> Sourced:
    return Sourced(value=value, low=value, high=value, kind="common-practice", source="test")


def _rule(
    room_mm: float, how: JointKind | None, factors: tuple[float | None, float | None] = (None, None)
) -> BetweenTight:
    """Return a tenon of 6 mm with room drawn; 0.2 mm come off, 0.1 mm are needed, 0.5 mm can be filed."""
    return BetweenTight(
        part="arm",
        outer="grip",
        feature="in grip",
        at_mm=(0.0, 0.0, 0.0),
        how=how,
        need_mm=_limit(0.1),
        most_mm=_limit(0.4),
        file_mm=_limit(0.5),
        play=PegPlay(
            bore_mm=6.0 + room_mm,
            peg_mm=6.0,
            work=WorkedBore(),
            undersize_mm=_limit(0.2),
            bore_factor=factors[0],
            peg_factor=factors[1],
        ),
    )


@pytest.mark.parametrize(
    ("room_mm", "how", "percent", "verdict"),
    [
        (0.3, None, 100.0, Verdict.GO),
        (0.3, None, 90.0, Verdict.HOLD),
        (0.3, "slides", 90.0, Verdict.GO_WITH_WORK),
        (-0.2, "slides", 100.0, Verdict.GO_WITH_WORK),
        (-0.25, "slides", 100.0, Verdict.NO_GO),
        (0.6, "slides", 60.0, Verdict.GO),
    ],
)
def test_the_room_as_printed_decides(room_mm: float, how: JointKind | None, percent: float, verdict: Verdict) -> None:
    """Room times scale less 0.2 mm must be 0.1 mm; unstated, too little is a question and never an order."""
    finding = _rule(room_mm, how).at(percent / 100.0)

    assert finding.measured == pytest.approx(room_mm * percent / 100.0 - 0.2)
    assert finding.verdict is verdict
    assert bool(finding.question) is (verdict is Verdict.HOLD) is finding.remedy.startswith("if ")


@pytest.mark.parametrize("factors", [(None, None), (1.0, None), (None, 1.0)])
@pytest.mark.parametrize("how", [None, "slides"])
def test_every_change_of_the_verdict_lies_at_a_turn(
    how: JointKind | None, factors: tuple[float | None, float | None]
) -> None:
    """From 50 to 200 % in steps of 0.5 %, also where one of the two parts keeps its size."""
    rule, scales = _rule(0.3, how, factors), [0.5 + 0.005 * step for step in range(301)]
    for low, high in pairwise(scales):
        if rule.at(low).verdict is not rule.at(high).verdict:
            assert any(low - 1e-9 <= turn <= high + 1e-9 for turn in rule.turns()), (low, high)


def test_parts_of_two_scales_do_not_rattle_unasked() -> None:
    """6.3 mm at 130 % is 8.19 less 0.2 mm about a tenon that stays 6 mm: 1.99 mm of room; at 100 % it fits."""
    rule = _rule(0.3, "slides", (None, 1.0))

    assert [rule.at(s).verdict for s in (1.0, 1.3)] == [Verdict.GO, Verdict.HOLD]
    assert rule.at(1.3).measured == pytest.approx(1.99)


def test_what_is_to_move_in_curved_faces_is_drawn_anew() -> None:
    """A ball 0.3 mm off its socket all round, 0.6 in all, has 0.16 mm at 60 % and moves; one with 0.2 in all does not."""
    rule = replace(_rule(0.2, "turns"), curved=True)

    assert replace(_rule(0.6, "turns"), curved=True).at(0.6).verdict is Verdict.GO
    assert rule.at(1.0).verdict is Verdict.NO_GO
    assert rule.at(1.0).remedy.startswith("draw ")
    assert replace(rule, how="pressed").at(0.9).verdict is Verdict.GO_WITH_WORK
    assert replace(rule, how=None).at(1.0).verdict is Verdict.HOLD

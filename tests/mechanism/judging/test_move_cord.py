"""Travel, pull and return are judged with the numbers of the contract."""

from __future__ import annotations

import math

import pytest

from planner.finding import Verdict
from planner.mechanism.judging.curve_over_scale import Curve
from planner.mechanism.judging.move_cord import MovePull, MoveReturn, MoveTravel


def _line(at_half: float, at_double: float) -> Curve:
    return Curve(scales=(0.5, 2.0), values=(at_half, at_double))


def test_travel_turns_where_the_wrist_gives_what_is_needed() -> None:
    """45 mm of arm over 24.2 degrees give 19 mm; 14 mm drawn are 19 mm at 135.7 %."""
    has = 45.0 * math.radians(24.192)
    rule = MoveTravel(part="deck", feature="pull cord", needs_mm=_line(7.0, 28.0), has_mm=has, body="wrist")
    assert rule.turns() == pytest.approx((has / 14.0,))
    assert rule.at(1.35).verdict is Verdict.GO
    assert rule.at(1.37).verdict is Verdict.NO_GO
    assert "needs 14.0 mm of travel; this wrist gives 19.0 mm" in rule.at(1.0).why


def test_a_range_that_nobody_has_is_doubted_in_the_finding() -> None:
    """The caution stands beside the verdict, whatever that is."""
    rule = MoveTravel(
        part="deck", feature="c", needs_mm=_line(7.0, 28.0), has_mm=99.0, body="wrist", doubt="200° of wrist"
    )
    assert rule.at(1.0).caution == "200° of wrist"
    assert rule.at(1.0).verdict is Verdict.GO


def test_an_unknown_body_is_a_hold_at_every_size() -> None:
    """Nobody measured the wrist: that is asked, and no size helps."""
    rule = MoveTravel(part="deck", feature="pull cord", needs_mm=_line(7.0, 28.0), has_mm=None, body="wrist")
    assert rule.at(1.0).verdict is Verdict.HOLD
    assert rule.at(1.0).question
    assert rule.turns() == ()


def _pull(greatest: float | None) -> MovePull:
    low, high = _line(40.0, 40.0), _line(50.0, 65.0)
    return MovePull(
        part="deck",
        feature="pull cord",
        low_n=low,
        high_n=high,
        grip_n=10.0,
        greatest_n=greatest,
        share=0.2,
        source="x",
    )


def test_the_high_end_of_the_pull_decides() -> None:
    """55 N at 100 % are a fifth of 275 N: of 274 N it is a hold, never a no-go."""
    assert _pull(275.01).at(1.0).verdict is Verdict.GO
    assert _pull(274.0).at(1.0).verdict is Verdict.HOLD
    assert any(turn == pytest.approx(1.0) for turn in _pull(275.0).turns())


def test_an_unmeasured_pull_is_a_hold_with_the_number_to_measure() -> None:
    """55 N are a fifth of 275 N."""
    found = _pull(None).at(1.0)
    assert found.verdict is Verdict.HOLD
    assert "275 N" in found.why
    assert found.question


def test_an_elastic_that_leaves_nothing_does_not_open() -> None:
    """What is left is 3 N·mm at 50 % and none at 125 %."""
    rule = MoveReturn(
        part="jaw",
        feature="deck to jaw",
        elastic="return elastic",
        left_n_mm=_line(3.0, -3.0),
        usual_n_mm=_line(4.0, -2.0),
    )
    assert rule.turns() == pytest.approx((1.25, 1.5))
    assert rule.at(1.2).verdict is Verdict.GO
    assert rule.at(1.3).verdict is Verdict.HOLD  # friction decides: 0.8 N·mm are left as expected
    assert rule.at(1.6).verdict is Verdict.NO_GO


def test_an_elastic_past_the_axis_is_led_otherwise_and_not_made_stronger() -> None:
    """A stronger one would hold the joint shut harder: the hint names the side, and no strength."""
    shuts = "band passes the axis of deck to jaw at 20°, and from 20 to 40° it pulls it shut"
    known = {"part": "jaw", "feature": "deck to jaw", "elastic": "band"}
    rule = MoveReturn(**known, left_n_mm=_line(-3.0, -3.0), usual_n_mm=_line(-2.0, -2.0), shuts=shuts)
    found = rule.at(1.0)
    assert found.verdict is Verdict.NO_GO
    assert shuts in found.why
    assert "stays on the opening side" in found.remedy
    assert "stronger" not in found.remedy


def test_nothing_is_refused_over_a_range_that_nobody_asked_for() -> None:
    """Travel and return over all that is free are holds with the question how far it must go."""
    ask = "How far must deck to jaw go (needs_deg)?"
    travel = MoveTravel(part="deck", feature="c", needs_mm=_line(7.0, 28.0), has_mm=9.0, body="wrist", how_far=ask)
    known = {"part": "jaw", "feature": "deck to jaw", "elastic": "band"}
    back = MoveReturn(**known, left_n_mm=_line(-3.0, -3.0), usual_n_mm=_line(-2.0, -2.0), how_far=ask)
    for rule in (travel, back):
        found = rule.at(1.0)
        assert (found.verdict, found.question) == (Verdict.HOLD, ask)
        assert "is not stated" in found.why


def test_slack_as_tied_is_part_of_the_travel_and_told() -> None:
    """17 mm of way and 3 of slack are 20, of 19 that the wrist gives: no go, and the slack is named first."""
    rule = MoveTravel(part="deck", feature="cord", needs_mm=_line(20.0, 20.0), has_mm=19.0, body="wrist", tied_mm=3.0)
    found = rule.at(1.0)

    assert found.verdict is Verdict.NO_GO
    assert "needs 20.0 mm of travel, 3.0 mm of it into slack" in found.why
    assert found.remedy.startswith("tie cord with less slack")

"""``strength.beam`` over scale: by hand on both sides of both limits."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.finding import Evidence, Verdict
from planner.rules import GoShare
from planner.strength.beam.beam_pass import KNOTS
from planner.strength.judging.beam_share import BeamShare

RULE = BeamShare(
    part="jaw",
    loads="20 N at the tip",
    asks="",
    mpa_per_percent=0.25,
    squared_percent=(72.0,) * len(KNOTS),
    at_mm=(1.0, 2.0, 3.0),
    direction="across",
    go=GoShare(share=0.5, daily_share=0.5, left_said="", source="here"),
    strength="40 MPa along, 25 MPa across the layers",
)


def test_a_share_goes_with_one_over_the_square_of_the_scale() -> None:
    """72 % at 100 %: 50 % at 120 %, 100 % at 84.85 %, worked out by hand."""
    assert RULE.at(1.2).measured == pytest.approx(50.0)
    assert RULE.turns() == pytest.approx((0.72**0.5, 1.2))


def test_what_stated_heat_leaves_ends_a_go_and_is_a_hold() -> None:
    """30 % left: 72 / s² passes half of it at s = 2.191, by hand; over it it is held, with its proof load."""
    hot = replace(RULE, go=GoShare(share=0.15, daily_share=0.5, left_said="at 63 °C 30 % of it is left", source="here"))

    assert hot.at(2.20).verdict is Verdict.GO
    assert hot.at(2.18).verdict is Verdict.HOLD
    assert "at 63 °C 30 % of it is left" in hot.at(1.54).why
    assert "as hot and as long" in hot.at(1.54).question
    assert hot.at(0.84).verdict is Verdict.NO_GO
    assert any(turn == pytest.approx((72.0 / 15.0) ** 0.5) for turn in hot.turns())
    assert replace(hot, go=replace(hot.go, share=0.0)).at(2.5).verdict is Verdict.HOLD


@pytest.mark.parametrize(
    ("s", "verdict"), [(1.21, Verdict.GO), (1.19, Verdict.HOLD), (0.86, Verdict.HOLD), (0.84, Verdict.NO_GO)]
)
def test_half_is_go_the_whole_a_hold_and_more_no_go(s: float, verdict: Verdict) -> None:
    """Known loads may end a size."""
    assert RULE.at(s).verdict is verdict
    assert RULE.at(s).evidence is Evidence.STATED


ASKS = "Where and which way does the load act on jaw?"


def test_a_load_that_nobody_placed_never_ends_a_size() -> None:
    """Above half it asks where the load acts, under a question of its own, and stays a hold at every size."""
    found = replace(RULE, asks=ASKS).at(0.5)

    assert (found.verdict, found.evidence, found.question_id) == (Verdict.HOLD, Evidence.GUESSED, "load-jaw")
    assert found.question == ASKS
    assert found.why.startswith("if the load acts at its worst: ")


def test_what_stands_the_worst_place_is_a_go_wherever_the_load_presses() -> None:
    """Below half no guess decides: a go without a caution, which says so."""
    found = replace(RULE, asks=ASKS).at(2.0)

    assert (found.verdict, found.evidence, found.question_id) == (Verdict.GO, Evidence.STATED, "")
    assert found.why.endswith("wherever on the part the load presses")
    assert "wherever" not in RULE.at(2.0).why


def test_turns_are_where_the_verdict_turns_on_a_bent_curve() -> None:
    """Beside each turn the share lies on either side of a limit."""
    bent = replace(RULE, squared_percent=(60.0, 62.0, 66.0, 72.0, 80.0, 90.0, 100.0, 110.0))
    for turn in bent.turns():
        assert min(abs(bent.share_percent(turn) - limit) for limit in (50.0, 100.0)) < 1e-9


def test_a_part_of_its_own_scale_never_turns() -> None:
    """Its own factor rules."""
    own = replace(RULE, own_factor=1.0)

    assert own.turns() == ()
    assert own.at(0.4).measured == pytest.approx(72.0)


def test_a_guessed_load_is_asked_about_before_the_part_is_changed() -> None:
    """A hold that rests on a guess says first to state where the load presses: that costs nothing."""
    asked = replace(RULE, asks="Where does the load press the jaw?")
    s = next(s for s in (x / 100.0 for x in range(300, 30, -1)) if asked.at(s).verdict is Verdict.HOLD)

    assert asked.at(s).remedy.startswith("say where the load presses it")
    assert RULE.at(s).remedy.startswith("lay it")


def test_a_doubt_is_held_against_what_heat_leaves_too() -> None:
    """15 % left in heat: 10 % is go, and 10 % that may be three times as much is not; by hand, it turns at 5 %."""
    hot = GoShare(share=0.15, daily_share=0.5, left_said="at 63 °C 30 % of it is left", source="here")
    sure = replace(RULE, squared_percent=(10.0,) * len(KNOTS), go=hot)
    doubted = replace(sure, doubt="a notch", doubt_ratio=3.0)

    assert sure.at(1.0).verdict is Verdict.GO
    assert doubted.at(1.0).verdict is Verdict.HOLD
    assert any(turn == pytest.approx(2.0**0.5) for turn in doubted.turns())
    assert replace(doubted, asks=ASKS).at(1.0).verdict is Verdict.GO  # 30 % of 50: one extreme at a time


def test_notches_that_may_take_the_whole_strength_are_a_hold() -> None:
    """36 % raised 3 times is 108 %; at s = 1.04 it is under 100, by hand: √(1.08) = 1.0392."""
    notched = replace(RULE, squared_percent=(36.0,) * len(KNOTS), notch_ratio=3.0)

    assert notched.at(1.03).verdict is Verdict.HOLD
    assert "up to 102 %" in notched.at(1.03).why
    assert notched.at(1.05).verdict is Verdict.GO
    assert any(turn == pytest.approx(1.08**0.5) for turn in notched.turns())


def test_a_face_that_may_peel_past_what_is_go_is_a_hold() -> None:
    """36.1 % at 141.2 % is go; 1.5 times that at its face is over 50 %: held from 146.97 % down, by hand."""
    peels = replace(RULE, peel_ratio=1.5, peel_over="frame", peel_mm=(4.0, 5.0, 6.0))

    assert peels.at(1.48).verdict is Verdict.GO
    held = peels.at(1.46)
    assert held.verdict is Verdict.HOLD
    assert "face on frame" in held.why
    assert "longer face" in held.remedy
    assert "proof load" in held.question
    assert any(turn == pytest.approx((72.0 * 1.5 / 50.0) ** 0.5) for turn in peels.turns())


def test_ten_times_the_strength_is_no_figure_but_what_to_correct() -> None:
    """720 % at 100 % is 1,125 % at 80 %, by hand: a hold without a figure where its loads cannot be meant."""
    absurd = replace(RULE, squared_percent=(720.0,) * len(KNOTS), odd="a load at [0, 0, 40] mm lies 32.0 mm off jaw")
    told, near = absurd.at(0.8), absurd.at(1.0)

    assert (told.verdict, told.measured) == (Verdict.HOLD, None)
    assert "32.0 mm off jaw" in told.why
    assert near.verdict is Verdict.NO_GO
    assert any(turn == pytest.approx(0.72**0.5) for turn in absurd.turns())


def test_a_load_that_may_be_meant_stays_a_no_go() -> None:
    """Nothing odd about it: no-go, told as more than ten times, with the load and the unit to check."""
    told = replace(RULE, squared_percent=(720.0,) * len(KNOTS)).at(0.8)

    assert told.verdict is Verdict.NO_GO
    assert "more than 1,000 %" in told.why
    assert "load_n" in told.remedy


def test_past_a_dead_point_no_share_is_go() -> None:
    """What nothing bounds is held at any size, with the question what stops it; too much at other places is no go."""
    toggle = replace(
        RULE, locks="pull: at 30° it is at or past its dead point, where nothing bounds how hard it presses"
    )
    held = toggle.at(2.5)

    assert (held.verdict, held.question) == (Verdict.HOLD, "What stops it before its dead point?")
    assert "at 30° it is at or past its dead point" in held.why
    assert toggle.at(0.84).verdict is Verdict.NO_GO


def test_a_link_whose_pins_may_press_it_harder_is_never_go() -> None:
    """What nobody knows of its loop is held at any size, with what to state; too much under what is known is no go."""
    link = replace(RULE, untold="it is a link of a closed loop, and no cord is known to drive it")
    held = link.at(2.5)

    assert RULE.at(2.5).verdict is Verdict.GO
    assert held.verdict is Verdict.HOLD
    assert held.question.startswith("What drives the loop")
    assert "no cord is known to drive it" in held.why
    assert link.at(0.84).verdict is Verdict.NO_GO

"""A range is judged at both ends, and turns exactly where an end meets its need."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from planner.finding import Verdict
from planner.mechanism.judging.curve_over_scale import Curve
from planner.mechanism.judging.move_range import MoveEnd, MoveRange
from planner.mechanism.range.joint_range import LeastGap


def _rule(needs: tuple[float, float] | None = (0.0, 30.0), unit: str = "°", *, stop: bool = True) -> MoveRange:
    high = Curve(scales=(0.5, 1.0, 2.0), values=(20.0, 29.0, 39.0))
    low = Curve(scales=(0.5, 1.0, 2.0), values=(-5.0, -5.0, -5.0))
    return MoveRange(
        part="jaw",
        feature="deck to jaw",
        low=MoveEnd(curve=low if stop else None, meets="jaw meets deck", reach_mm=16.0),
        high=MoveEnd(curve=high if stop else None, meets="jaw meets jaw#2", reach_mm=10.0),
        needs=needs,
        near=LeastGap(gap_mm=0.05, at_deg=12.0, parts=("deck", "jaw")),
        clear_mm=0.1,
        unplaced=(),
        unit=unit,
    )


def test_it_turns_where_the_end_meets_the_need() -> None:
    """29 degrees at 100 % and 39 at 200 %: 29.95, told as 30, are reached from 109.5 % on."""
    rule = _rule()
    assert rule.turns() == pytest.approx((1.095,))
    assert rule.at(1.0949).verdict is Verdict.NO_GO
    assert rule.at(1.0951).verdict is Verdict.GO


@pytest.mark.parametrize("sense", [1.0, -1.0])
@pytest.mark.parametrize("unit", ["°", "mm"])
def test_a_stop_that_is_drawn_just_where_it_is_needed_is_no_no_go(unit: str, sense: float) -> None:
    """Faces that land flush at 15 are found at 14.9992, within the rounding of the mesh; 14.9 is short."""
    for found, verdict in ((14.9992, Verdict.GO), (14.9, Verdict.NO_GO)):
        near = MoveEnd(
            curve=Curve(scales=(0.5, 2.0), values=(sense * found,) * 2), meets="arm meets base", reach_mm=9.0
        )
        free = MoveEnd(curve=None, meets="", reach_mm=0.0)
        needs = (min(0.0, sense * 15.0), max(0.0, sense * 15.0))
        ends = (free, near) if sense > 0.0 else (near, free)
        assert replace(_rule(needs, unit), low=ends[0], high=ends[1], near=None).at(1.0).verdict is verdict


def test_what_is_missing_is_told_with_what_is_in_the_way() -> None:
    """One degree at 10 mm from the axis is 10 pi / 180 = 0.17 mm to be taken off, and 0.1 mm for the faces to pass."""
    found = _rule().at(1.0)
    assert "jaw meets jaw#2" in found.why
    assert "stops at 29.0°" in found.why
    assert f"{10.0 * math.pi / 180.0 + 0.1:.2f} mm" in found.remedy


def test_no_corner_is_relieved_by_more_than_a_part_is_thick() -> None:
    """A degree at 1000 mm from the axis is 17.45 mm: too much to take off, so what is in the way is to be moved."""
    rule = _rule()
    remedy = replace(rule, high=replace(rule.high, reach_mm=1000.0)).at(1.0).remedy
    told = "move what is in the way, which reaches about 18 mm too far and judge again: more may lie behind it"
    assert remedy == f"{told}, or ask for less range"


def test_a_guessed_stop_is_a_hold_and_no_no_go() -> None:
    """A screw's head of usual size is in the way: nobody has stated it, so it is asked about."""
    rule = _rule()
    guessed = replace(rule, high=replace(rule.high, meets="head of post meets deck", guess="Is the head so large?"))
    found = guessed.at(1.0)
    assert found.verdict is Verdict.HOLD
    assert found.question == "Is the head so large?"


def test_a_doubt_about_how_it_goes_at_all_is_a_hold_with_its_question() -> None:
    """Short of its need where a slide is only taken from guiding faces: asked, and no no-go."""
    rule = _rule()
    found = replace(rule, high=replace(rule.high, doubt="Does block slide on base?")).at(1.0)
    assert found.verdict is Verdict.HOLD
    assert found.question == "Does block slide on base?"


def test_a_go_that_hangs_on_a_guess_is_a_hold_with_its_question() -> None:
    """From 110 % on it reaches 30 degrees: by a slide that faces alone show, past what may stand at any angle."""
    free = _rule(needs=(0.0, 25.0))
    assert free.at(1.0).verdict is Verdict.GO
    guided = replace(free, guess="Does block slide on base?").at(1.0)
    assert (guided.verdict, guided.question) == (Verdict.HOLD, "Does block slide on base?")
    loose = replace(free, loose=("knob",)).at(1.0)
    assert (loose.verdict, loose.question) == (Verdict.HOLD, "At which angle do these stand: knob?")


def test_what_lies_inside_another_at_rest_is_a_hold() -> None:
    """Free over all that is needed, and yet the two cannot stand there: a hold that asks where they do."""
    found = replace(_rule(needs=(0.0, 25.0)), sunk=("deck", "jaw")).at(1.0)
    assert found.verdict is Verdict.HOLD
    assert "jaw lies partly inside deck" in found.why
    assert found.question == "Do deck and jaw stand where the job says?"


def test_padding_on_an_unknown_side_holds_only_where_it_could_decide() -> None:
    """It would stop the jaw at 26 degrees on its worst side, with 25 and 27 asked for; at twice the size at 32."""
    foam = Curve(scales=(0.5, 1.0, 2.0), values=(18.0, 26.0, 32.0))
    end = MoveEnd(curve=foam, meets="the padding of jaw", reach_mm=0.0, soft=True, doubt="jaw")

    assert replace(_rule(needs=(0.0, 25.0)), padded=(None, end)).at(1.0).verdict is Verdict.GO
    asked = replace(_rule(needs=(0.0, 27.0)), padded=(None, end))
    found = asked.at(1.0)
    assert found.verdict is Verdict.HOLD
    assert found.question == "On which side of jaw does its padding lie?"
    assert found.remedy == "write skin_toward of jaw"
    assert 1.0 + 0.95 / 6.0 in [pytest.approx(turn) for turn in asked.turns()]
    assert asked.at(1.2).verdict is Verdict.GO


def test_a_cord_in_the_way_is_a_hold_with_a_trial_on_the_bench() -> None:
    """A cord may give way by a degree: neither a no-go nor a go, and the words name it."""
    rule = _rule()
    found = replace(rule, high=replace(rule.high, meets="jaw meets the cord pull", soft=True)).at(1.0)

    assert found.verdict is Verdict.HOLD
    assert "jaw meets the cord pull" in found.why
    assert "lead the cord another way" in found.remedy
    assert found.question == "Does what is soft there give way, so that deck to jaw gets to 30.0° on the bench?"
    padded = replace(rule, high=replace(rule.high, meets="the padding of jaw meets deck", soft=True)).at(1.0)
    assert "take thinner padding" in padded.remedy


def test_what_lies_behind_a_cord_or_a_guessed_head_is_judged_as_well() -> None:
    """A cord stops at 20 degrees and matter at 29 or 35: 30 are refused where the cord alone would be asked about."""
    for soft in (True, False):
        cord = MoveEnd(curve=FLAT, meets="jaw meets the cord pull", reach_mm=10.0, soft=soft, guess="" if soft else "?")
        hard = MoveEnd(curve=Curve(scales=(0.5, 2.0), values=(29.0, 29.0)), meets="jaw meets jaw#2", reach_mm=10.0)
        beyond = replace(hard, curve=Curve(scales=(0.5, 2.0), values=(35.0, 35.0)))
        found = replace(_rule(), high=replace(cord, behind=hard)).at(1.0)
        assert (found.verdict, found.measured) == (Verdict.NO_GO, 29.0)
        assert "jaw meets jaw#2" in found.why
        assert replace(_rule(), high=replace(cord, behind=beyond)).at(1.0).verdict is Verdict.HOLD


def test_a_hard_stop_at_one_end_is_not_hidden_by_a_soft_one_at_the_other() -> None:
    """Ten degrees are missing above, where a cord stops it, five below, where matter does: that is a no-go."""
    cord = MoveEnd(curve=FLAT, meets="jaw meets the cord pull", reach_mm=10.0, soft=True)
    found = replace(_rule((-10.0, 30.0)), high=cord).at(1.0)
    assert (found.verdict, found.measured) == (Verdict.NO_GO, -5.0)


FLAT = Curve(scales=(0.5, 2.0), values=(20.0, 20.0))


def test_what_has_no_place_may_be_in_the_way() -> None:
    """A free range is a hold while a copy's place is not known; one that is short stays a no-go."""
    rule = replace(_rule(), unplaced=("cap",))
    assert rule.at(2.0).verdict is Verdict.HOLD
    assert "cap" in rule.at(2.0).why
    assert rule.at(1.0).verdict is Verdict.NO_GO


def test_what_passes_too_near_as_printed_is_a_caution() -> None:
    """0.05 mm drawn are 0.08 at 150 %, too near for printed faces, and 0.1 mm and enough at 200 %."""
    assert "jaw passes deck by 0.08 mm at 12.0°" in _rule().at(1.5).caution
    assert not _rule().at(2.0).caution


def test_the_worse_end_is_told() -> None:
    """Twenty degrees short below, one above: the lower end is named."""
    found = _rule((-25.0, 30.0)).at(1.0)
    assert (found.measured, found.limit) == (-5.0, -25.0)
    assert "jaw meets deck" in found.why


def test_without_a_need_the_range_is_told_and_asked_for() -> None:
    """Nobody said what it ought to reach: a question, no verdict."""
    found = _rule(None).at(1.0)
    assert found.verdict is Verdict.GO
    assert "from -5.0 to 29.0°" in found.why
    assert found.question
    assert _rule(None).turns() == ()


def test_nothing_in_the_way_is_go_at_every_size() -> None:
    """No stop within a full turn covers every need."""
    rule = _rule(stop=False)
    assert rule.at(0.3).verdict is Verdict.GO
    assert rule.turns() == ()


def test_a_slider_needs_more_way_in_a_larger_device() -> None:
    """Twenty millimetres drawn are 40 at 200 %, where it has 39."""
    rule = _rule((0.0, 20.0), "mm")
    assert rule.at(2.0).verdict is Verdict.NO_GO
    assert rule.at(1.0).verdict is Verdict.GO
    assert any(1.0 < turn < 2.0 for turn in rule.turns())


def test_no_file_is_named_where_no_material_is_in_the_way() -> None:
    """A limit that the job states and a chain that locks are not cured by taking material off."""
    rule = _rule()
    stated = replace(rule, high=replace(rule.high, cure="move the stop that limits_deg stands for"))
    found = stated.at(1.0)
    assert found.verdict is Verdict.NO_GO
    assert "limits_deg" in found.remedy
    assert "off where" not in found.remedy


def test_a_joint_led_by_a_locked_one_is_asked_about() -> None:
    """A crank goes all round; led by its rocker it does not, so that it is a question which of them drives."""
    rule = _rule()
    found = replace(rule, high=replace(rule.high, leader="base to rocker")).at(1.0)
    assert found.verdict is Verdict.HOLD
    assert "base to rocker" in found.question


def test_a_slide_that_has_left_its_guides_is_no_go_until_somebody_says_what_holds_it() -> None:
    """Nothing stops it, and at 30 mm drawn, 60 mm at 200 %, nothing guides it any more: a hold with that question."""
    found = replace(_rule(unit="mm", stop=False), off=(False, True)).at(2.0)

    assert found.verdict is Verdict.HOLD
    assert "at 60.0 mm it has left the faces that guide it" in found.why
    assert found.question == "What holds deck to jaw at 60.0 mm?"


@pytest.mark.parametrize(("unit", "said"), [("mm", True), ("°", False)])
def test_a_slide_that_nothing_ends_is_cautioned(unit: str, said: bool) -> None:
    """It may run off its guides, beyond what is needed or where nobody said; what turns all round may not."""
    for needs in ((0.0, 30.0), None):
        found = _rule(needs, unit=unit, stop=False).at(1.0)
        assert found.verdict is Verdict.GO
        assert ("Nothing ends its way at the low or the high end" in found.caution) is said

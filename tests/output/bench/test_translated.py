"""What every paper in another language carries: who translated it, and which of its words stay English."""

from __future__ import annotations

from dataclasses import replace

from planner.output.bench.translated import findings_stay, own_head, unsigned
from planner.output.tongue import ENGLISH, ENGLISH_BELOW, tongue_of
from planner.output.words.block_texts import texts_of
from tests.output.conftest import MakePlan


def test_who_translated_a_paper_is_said_until_a_speaker_signs() -> None:
    """In the language and in English; once a speaker has signed, and in English, there is nothing to say."""
    (text,) = texts_of(unsigned(tongue_of("hi")))

    assert "A machine translated this sheet" in text.split(ENGLISH_BELOW)[1]
    assert unsigned(replace(tongue_of("hi"), signed_by="clinician")) == unsigned(ENGLISH) == []


def test_a_paper_in_another_language_has_a_head_of_its_own(make_plan_of: MakePlan) -> None:
    """By that whoever prints it knows its direction; English papers share one."""
    plan = make_plan_of()
    head = own_head(plan, tongue_of("ar"))

    assert head is not None
    assert (head.language, head.leftward) == ("ar", True)
    assert own_head(plan, ENGLISH) is None


def test_what_stays_english_is_said_once() -> None:
    """Findings come from checks, whose words no catalogue holds; the English papers need no such line."""
    assert len(findings_stay(tongue_of("de"))) == 1
    assert findings_stay(ENGLISH) == []

"""Cautions in another language say what the plan says, and keep its English."""

from __future__ import annotations

from dataclasses import replace

from planner.output.bench.caution_words import caution_words
from planner.output.tongue import ENGLISH, ENGLISH_BELOW, Tongue, tongue_of
from planner.plan import Plan
from planner.supplies import Caution, cautions


def test_every_caution_says_in_a_message_what_the_plan_says(plan: Plan) -> None:
    """Each has its message, whose English is the plan's own sentence word for word: no caution drifts from its translation."""
    material = replace(plan.material, fumes=True)
    job = replace(plan.job, use=replace(plan.job.use, mouthing=True), tried_percent=(200.0, 300.0))
    told = cautions(job, material, 100.0, work=True)
    plain = Tongue(code="hi", words=ENGLISH.words, signed_by="nobody: English messages under another code")

    assert len(told) == 11
    for one in told:
        subject, text = caution_words(one, job, material, plain).split(": ", 1)
        assert (subject.lower(), text) == (one.about, one.text)


def test_a_caution_keeps_its_english_and_a_new_one_is_not_lost(plan: Plan) -> None:
    """Below the translation until a speaker signs; alone where no message is known."""
    job, material = plan.job, plan.material
    for code in ("de", "hi"):
        for one in plan.cautions:
            assert caution_words(one, job, material, tongue_of(code)).split(ENGLISH_BELOW)[1].endswith(one.text)
    unheard = Caution(about="something new", text="Mind it.")
    assert caution_words(unheard, job, material, tongue_of("de")) == f"{ENGLISH_BELOW}Something new: Mind it."
    assert caution_words(unheard, job, material, ENGLISH) == "Something new: Mind it."

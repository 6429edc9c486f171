"""``start --json``: the questions with their options, defaults and what they settle."""

from __future__ import annotations

from planner.assembly import doubts_of
from planner.job import marked_guesses
from planner.output.asking.start_json import start_json
from tests.assembly.by_hand.truths import scene


def test_every_question_is_listed_with_its_options() -> None:
    """Ids, defaults, shares that do not exceed 1, the number of findings each settles, and every part."""
    job, surveys = scene("heron")
    doubts = doubts_of(job, surveys)
    told = start_json("job.toml", job, marked_guesses(job), doubts, {doubts[0].id: 4}, ["unit"])
    questions = told["questions"]

    assert isinstance(questions, list)
    assert [one["id"] for one in questions] == [doubt.id for doubt in doubts]
    assert [one["settles_n"] for one in questions] == [4, *(0 for _ in doubts[1:])]
    assert all(one["default"] in {option["name"] for option in one["options"]} for one in questions)
    assert all(0.0 < option["share"] <= 1.0 for one in questions for option in one["options"])
    assert told["parts"] == [part.name for part in job.parts]
    assert told["answered"] == ["unit"]

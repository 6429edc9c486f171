"""Questions: those that settle most first, each with its answers."""

from __future__ import annotations

from planner.assembly import Doubt, Option
from planner.finding import Evidence, Finding, Verdict
from planner.rules.questions.question import questions_about, questions_of


def _doubt(name: str) -> Doubt:
    options = tuple(Option(name=word, text=f"it is {word}", edits=(), share=0.5) for word in ("one", "other"))
    return Doubt(id=name, text=f"What is {name}?", options=options, default="one", features=())


def _finding(part: str, asked: str = "", question: str = "") -> Finding:
    evidence = Evidence.GUESSED if asked else Evidence.MEASURED
    return Finding(
        rule="wall.thin",
        part=part,
        feature="wall",
        verdict=Verdict.HOLD,
        why="?",
        question=question or f"What is {asked}?",
        question_id=asked,
        evidence=evidence,
    )


def test_the_answer_that_settles_most_comes_first() -> None:
    """Two findings hang on the bores, one on the duty; what must be measured comes after both."""
    found = [_finding("a", "duty"), _finding("b", "bores"), _finding("c", "bores"), _finding("d", question="How wide?")]
    first, second, third = questions_about(found, [_doubt("duty"), _doubt("bores"), _doubt("unit")])

    assert (first.id, first.settles_n, first.default) == ("bores", 2, "one")
    assert first.features == (("b", "wall"), ("c", "wall"))
    assert first.options == (("one", "it is one"), ("other", "it is other"))
    assert (second.id, second.settles_n) == ("duty", 1)
    assert (third.id, third.text, third.options) == ("wall.thin-d-wall", "How wide?", ())


def test_there_are_never_more_than_eight() -> None:
    """Measurements fill up what doubts leave, three of them at most."""
    doubts = [_doubt(f"d{k}") for k in range(7)]
    found = [_finding("a", doubt.id) for doubt in doubts] + [_finding("b", question=f"{k}?") for k in range(5)]

    assert len(questions_about(found, doubts)) == 8
    assert len(questions_about(found[5:], doubts)) == 2 + 3
    assert len(questions_of(found)) == 3

"""The headline tells apart what ends it, what hangs on answers, and what is fine."""

from __future__ import annotations

from planner.finding import Evidence, Finding, Verdict
from planner.rules.questions.headline import headline_of
from planner.rules.questions.question import Question

QUESTION = Question(
    id="duty",
    text="What is it for?",
    options=(("load", "it carries load"), ("cover", "it only covers")),
    default="load",
    settles_n=2,
    features=(("a", "b1"), ("a", "b2")),
)


def _finding(rule: str, feature: str, verdict: Verdict, evidence: Evidence = Evidence.MEASURED) -> Finding:
    guessed = evidence is Evidence.GUESSED
    return Finding(
        rule=rule,
        part="a",
        feature=feature,
        verdict=verdict,
        why=f"{feature} is so",
        evidence=evidence,
        question=QUESTION.text if guessed else "",
        question_id="duty" if guessed else "",
    )


def test_each_finding_counts_in_one_of_the_three() -> None:
    """A measured no-go ends it; guesses, holds and usual values hang; go that was compared with something is fine."""
    headline = headline_of(
        [
            _finding("wall.thin", "wall", Verdict.NO_GO),
            _finding("bore.tight", "b1", Verdict.HOLD, Evidence.GUESSED),
            _finding("bore.tight", "b2", Verdict.GO_WITH_WORK, Evidence.GUESSED),
            _finding("gap.tight", "gap", Verdict.NO_GO, Evidence.USUAL),
            _finding("bore.tight", "b3", Verdict.GO),
        ],
        [QUESTION],
    )

    assert headline.ends == ("a: wall is so",)
    assert headline.hangs_on == ("What is it for?", "gap is so")
    assert (headline.fine_n, headline.open_n) == (1, 3)
    assert headline.told([QUESTION]) == "1 answer settles 2 of 3 open points"


def test_nothing_is_fine_that_was_not_checked() -> None:
    """A bore that is only listed is not fine, nor is a feature with one thing fine and another not."""
    headline = headline_of(
        [
            _finding("bore.unclaimed", "b1", Verdict.GO),
            _finding("bore.edge", "b2", Verdict.GO),
            _finding("bore.tight", "b2", Verdict.GO_WITH_WORK),
        ],
        [],
    )

    assert headline.fine_n == 0
    assert headline.told([]) == ""

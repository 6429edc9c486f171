"""What a verdict is made of: what ends it whatever is answered, what hangs on answers, and what is fine."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planner.finding import Evidence, Finding, Verdict
from planner.job import kind_of
from planner.rules.questions.question import Question

FACTS = (Evidence.STATED, Evidence.MEASURED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Headline:
    """What a person reads first.

    Parameters
    ----------
    ends
        What stops it whatever is answered: one sentence for each part and rule.
    hangs_on
        Questions, and other open points, whose answers decide.
    fine_n
        Features that were checked and pass as they are.
    open_n
        Findings that wait for an answer or a measurement.
    """

    ends: tuple[str, ...]
    hangs_on: tuple[str, ...]
    fine_n: int
    open_n: int

    def told(self, questions: Sequence[Question], most: int = 5) -> str:
        """Return how far the first answers get, such as "2 answers settle 41 of 60 open points"; empty without any."""
        first = [question for question in questions if question.options][:most]
        if not first:
            return ""
        settled = sum(question.settles_n for question in first)
        answers = "1 answer settles" if len(first) == 1 else f"{len(first)} answers settle"
        return f"{answers} {settled} of {self.open_n} open points"


def headline_of(findings: Sequence[Finding], questions: Sequence[Question]) -> Headline:
    """Return the headline of some findings, worst first, and the questions about them.

    A feature is fine only if something was compared there, and nothing about it waits or objects.
    """
    ends = [finding for finding in findings if _ends(finding)]
    open_ones = [finding for finding in findings if _is_open(finding)]
    by_answer = {question.text for question in questions}
    rest = [f.question or f.why for f in open_ones if f.question not in by_answer]
    of_feature: dict[tuple[str, str], list[Finding]] = {}
    for finding in findings:
        of_feature.setdefault((finding.part, finding.feature), []).append(finding)
    fine = [
        mine
        for mine in of_feature.values()
        if all(finding.verdict is Verdict.GO for finding in mine)
        and any(not kind_of(finding.rule).unchecked for finding in mine)
    ]
    return Headline(
        ends=tuple(f"{finding.part}: {finding.why}".removeprefix(": ") for finding in ends),
        hangs_on=tuple(dict.fromkeys([*(q.text for q in questions if _decides(q, open_ones)), *rest])),
        fine_n=len(fine),
        open_n=len(open_ones),
    )


def _ends(finding: Finding) -> bool:
    """Return whether a finding stops the device on facts alone."""
    return finding.verdict is Verdict.NO_GO and finding.evidence in FACTS


def _is_open(finding: Finding) -> bool:
    """Return whether an answer or a measurement may still change a finding that objects."""
    guessed = finding.evidence is Evidence.GUESSED
    return guessed or finding.verdict is Verdict.HOLD or (finding.verdict is Verdict.NO_GO and not _ends(finding))


def _decides(question: Question, open_ones: Sequence[Finding]) -> bool:
    """Return whether a question is about something open."""
    return any(finding.question == question.text for finding in open_ones)

"""Check: every rule asked at one scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planner.finding import Finding, Guess, Verdict, worst
from planner.job import kind_of
from planner.rules.bind.bind import BoundRules
from planner.rules.kinds.finding_order import by_severity
from planner.rules.rule import Rule
from planner.scale import Scale

QUESTIONS_MOST = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """The verdict at one scale; ``questions`` are the at most three that would change it."""

    scale_percent: float
    verdict: Verdict
    findings: tuple[Finding, ...]
    guesses: tuple[Guess, ...]
    questions: tuple[str, ...]
    checked_n: int
    features_n: int


def check(bound: BoundRules, scale_percent: float) -> Checked:
    """Ask every rule at a scale; worst finding first."""
    s = Scale(scale_percent).factor
    answers = [rule.at(s) for rule in bound.rules]
    findings = by_severity(answers)
    checked, features = counted(bound.rules)
    return Checked(
        scale_percent=scale_percent,
        verdict=worst(findings),
        findings=findings,
        guesses=bound.guesses,
        questions=questions_of(findings),
        checked_n=checked,
        features_n=features,
    )


def counted(rules: Sequence[Rule]) -> tuple[int, int]:
    """Return how many features were checked, and how many there are."""
    features = {(rule.part, rule.feature) for rule in rules}
    unchecked = {(rule.part, rule.feature) for rule in rules if kind_of(rule.rule).unchecked}
    return len(features - unchecked), len(features)


def questions_of(findings: Sequence[Finding]) -> tuple[str, ...]:
    """Return the questions that would change the verdict, worst first, each once, three at most.

    Where something does not pass, only an answer about that can; else any answer may make it worse.
    """
    decides = [f for f in findings if not f.verdict.passes] if not worst(findings).passes else findings
    asked = dict.fromkeys(finding.question for finding in decides if finding.question)
    return tuple(asked)[:QUESTIONS_MOST]

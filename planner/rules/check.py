"""Check: every rule asked at one scale."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from planner.assembly import Doubt
from planner.finding import Evidence, Finding, Guess, Verdict, worst
from planner.job import kind_of
from planner.rules.kinds.finding_order import by_severity
from planner.rules.of_job.rules_of_job import BoundRules
from planner.rules.questions.headline import Headline, headline_of
from planner.rules.questions.question import Question, questions_about
from planner.rules.questions.unanswered_rule import UnansweredRule
from planner.rules.questions.unanswered_rules_of import Key
from planner.rules.rule import HoldLifted, Rule
from planner.scale import Scale

USUAL = "Judged at usual values; within their usual range the answer changes."


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """The verdict at one scale, with what may be answered or measured to change it."""

    scale_percent: float
    verdict: Verdict
    findings: tuple[Finding, ...]
    guesses: tuple[Guess, ...]
    questions: tuple[Question, ...]
    headline: Headline
    doubts: tuple[Doubt, ...]
    checked_n: int
    features_n: int
    not_checked: tuple[str, ...] = ()
    """Rules that ask for more than a check has: for layers."""

    def with_findings(self, findings: Iterable[Finding]) -> Checked:
        """Return the same with other findings: verdict, questions and headline follow them."""
        ordered = by_severity(findings)
        questions = questions_about(ordered, self.doubts)
        return replace(
            self,
            verdict=worst(ordered),
            findings=ordered,
            questions=questions,
            headline=headline_of(ordered, questions),
        )


def check(bound: BoundRules, scale_percent: float) -> Checked:
    """Ask every rule at a scale; worst finding first."""
    s = Scale(scale_percent).factor
    places: Counter[Key] = Counter()
    found = []
    for rule in bound.rules:
        key = rule.part, rule.feature, rule.rule
        found.append(_resting(rule, rule.at(s), bound.otherwise.get(key, ()), places[key], s))
        places[key] += 1
    settings = bound.settings.rested(s) if bound.settings else None
    set_here = settings.findings if settings else {}
    findings = by_severity([*found, *set_here.values()])
    questions = questions_about(findings, bound.doubts)
    checked, features = counted(bound.rules)
    set_n = len({(part, feature) for _, part, feature in set_here})
    return Checked(
        scale_percent=scale_percent,
        verdict=worst(findings),
        findings=findings,
        guesses=bound.guesses,
        questions=questions,
        headline=headline_of(findings, questions),
        doubts=bound.doubts,
        checked_n=checked + set_n,
        features_n=features + set_n,
        not_checked=settings.unasked if settings else (),
    )


def _resting(rule: Rule, finding: Finding, others: Sequence[Sequence[Rule]], place: int, s: float) -> Finding:
    """Return a finding with what it rests on: a guess, a usual value, a measure, or only what a person wrote.

    ``others`` are the rules that may stand here as well, ``place`` is the rule's own among those of its name.
    """
    if finding.evidence is Evidence.GUESSED or isinstance(rule, HoldLifted):
        return finding
    for rules in others:
        alone = rules[place : place + 1] if not isinstance(rule, UnansweredRule) and place < len(rules) else rules
        if worst(other.at(s) for other in alone) is not finding.verdict:
            return replace(finding, evidence=Evidence.USUAL, caution=finding.caution or USUAL)
    return replace(finding, evidence=Evidence.STATED) if kind_of(finding.rule).of_job else finding


def counted(rules: Sequence[Rule]) -> tuple[int, int]:
    """Return how many features were checked, and how many there are."""
    features = {(rule.part, rule.feature) for rule in rules}
    unchecked = {(rule.part, rule.feature) for rule in rules if kind_of(rule.rule).unchecked}
    return len(features - unchecked), len(features)


def settled_n(checked: Checked) -> dict[str, int]:
    """Return how many findings each question settles, by its id."""
    return {question.id: question.settles_n for question in checked.questions}

"""A hold that waits for an answer under which no rule can be asked: meshes would have to be measured again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from planner.finding import Evidence, Finding, Verdict
from planner.job import kind_of
from planner.rules.questions.given_answers import Answers
from planner.rules.questions.if_clause import Asked, as_clauses
from planner.rules.rule import Rule, Wrapped


@dataclass(frozen=True, slots=True, kw_only=True)
class Waits(Wrapped):
    """A rule whose holds are settled by one question, such as the unit of all meshes."""

    asked: Asked

    def at(self, s: float) -> Finding:
        """Return the finding; a hold names the question that settles it."""
        found = self.inner.at(s)
        if found.verdict is not Verdict.HOLD:
            return found
        evidence, text = Evidence.GUESSED, self.asked.text
        return replace(found, evidence=evidence, question=text, question_id=self.asked.id)

    def turns(self) -> tuple[float, ...]:
        """Return the turns of the rule itself."""
        return self.inner.turns()


def waiting(rules: Iterable[Rule], asked: Sequence[Answers]) -> list[Rule]:
    """Return rules, those that wait for an answer wrapped."""
    untried = {
        one.doubt.id: Asked(id=one.doubt.id, text=one.doubt.text, clauses=as_clauses(each.text for each in one.answers))
        for one in asked
        if not one.tried
    }
    return [
        Waits(inner=rule, asked=untried[kind_of(rule.rule).doubt]) if kind_of(rule.rule).doubt in untried else rule
        for rule in rules
    ]

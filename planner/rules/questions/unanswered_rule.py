"""A rule whose answer hangs on something that nobody has stated: it is asked under each answer.

Where the answers agree, that is the finding. Where they do not, a guess would decide: then it is a hold with the
question, instead of a no-go and instead of a go, and nothing guessed orders work.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from planner.finding import Evidence, Finding, Verdict
from planner.rules.questions.if_clause import Asked, Choice, clause
from planner.rules.rule import Rule

TOLD_MOST = 3
"""So many answers are told with what each would ask for."""
NUMBER = re.compile(r"[-\d.]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """What rules say of a feature under some combinations of answers; none where nothing is left to judge."""

    choices: tuple[Choice, ...]
    rules: tuple[Rule, ...]


Said = tuple[tuple[Choice, ...], Finding | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class UnansweredRule:
    """A rule about a feature that some open questions touch; ``now`` judges as if nobody answered."""

    rule: str
    part: str
    feature: str
    asked: tuple[Asked, ...]
    now: tuple[Rule, ...]
    cases: tuple[Case, ...]
    whole: bool = True
    """Whether doubts that meet here were tried in all combinations: else no no-go is said to stand whatever happens."""

    def at(self, s: float) -> Finding:
        """Return the finding that all answers agree on, else what hangs on which."""
        now = _worst(self.now, s)
        said = _alike([(case.choices, _worst(case.rules, s)) for case in self.cases])
        answers = [_verdict(found) for _, found in said]
        verdict = self.verdict_of(_verdict(now), answers)
        if {_verdict(now), *answers} == {verdict} and (verdict is not Verdict.GO_WITH_WORK or len(said) == 1):
            agreed = now or next((found for _, found in said if found), None)
            return self._ends(said) if verdict is Verdict.NO_GO else self._agreed(agreed)
        if verdict is Verdict.NO_GO:
            return self._ends(said)
        return self._hanging(now, said, verdict)

    def verdict_of(self, now: Verdict, answers: Sequence[Verdict]) -> Verdict:
        """Return the verdict where ``now`` is that of nobody's answering, and ``answers`` those of all answers."""
        given = set(answers)
        if self.whole and given == {Verdict.NO_GO} and not now.passes:
            return Verdict.NO_GO
        if given == {now} and now is not Verdict.NO_GO:
            return now
        return Verdict.GO_WITH_WORK if all(verdict.passes for verdict in (now, *given)) else Verdict.HOLD

    def turns(self) -> tuple[float, ...]:
        """Return every scale at which one of the answers may turn."""
        rules = [*self.now, *(rule for case in self.cases for rule in case.rules)]
        return tuple(dict.fromkeys(turn for rule in rules for turn in rule.turns()))

    def _agreed(self, found: Finding | None) -> Finding:
        """Return a finding that no answer changes."""
        if found is None:
            return Finding(rule=self.rule, part=self.part, feature=self.feature, verdict=Verdict.GO, why="not there")
        return replace(found, rule=self.rule)

    def _ends(self, said: Sequence[Said]) -> Finding:
        """Return the no-go that no answer mends: that of the answer which asks for least."""
        found = [each for _, each in said if each]
        least = min(found, key=_short)
        if len(found) == 1:
            return replace(least, rule=self.rule, question="")
        why = f"{least.why}; no answer asks for less"
        return replace(least, rule=self.rule, why=why, remedy=self._told(said), question="")

    def _hanging(self, now: Finding | None, said: Sequence[Said], verdict: Verdict) -> Finding:
        """Return a hold, or work that is only to be done if an answer asks for it."""
        decider = self._decider(said)
        choices, found = max(said, key=lambda pair: _verdict(pair[1]).severity)
        shown = found or now
        assert shown is not None  # a rule that says nothing now nor under any answer is not wrapped
        objects = found is not None and found.verdict is not Verdict.GO
        return replace(
            shown,
            rule=self.rule,
            feature=now.feature if now else shown.feature,
            verdict=verdict,
            why=f"if {clause(choices, self.asked)}: {_without_lead(shown)}" if objects else shown.why,
            remedy=self._told(said) or shown.remedy,
            question=decider.text,
            evidence=Evidence.GUESSED,
            question_id=decider.id,
            work=None,  # an "if" decides nothing about what is bought or drilled
        )

    def _decider(self, said: Sequence[Said]) -> Asked:
        """Return the question of which most answers settle the verdict by themselves; the first of equals."""

        def settling(place: int) -> int:
            by_answer: dict[int, set[Verdict]] = {}
            for choices, found in said:
                for choice in choices:
                    by_answer.setdefault(choice[place], set()).add(_verdict(found))
            return sum(len(verdicts) == 1 for verdicts in by_answer.values()) if len(by_answer) > 1 else -1

        return self.asked[max(range(len(self.asked)), key=settling)]

    def _told(self, said: Sequence[Said]) -> str:
        """Return what each answer would ask for; empty where none asks for anything."""
        asks = [(choices, found) for choices, found in said if found and found.verdict is not Verdict.GO]
        told = [f"f {clause(choices, self.asked)}: {found.remedy or found.why}" for choices, found in asks[:TOLD_MOST]]
        if not told:
            return ""
        rest = ". Other answers ask for other work" if len(asks) > TOLD_MOST else ""
        if len(asks) < len(said) and not rest:
            rest = ". With any other answer, leave it as it is"
        return f"i{'. I'.join(told)}{rest}"


def is_unanswered(rule: Rule) -> bool:
    """Return whether a rule is asked under several answers, whatever is wrapped round it."""
    inner = getattr(rule, "inner", None)
    return isinstance(rule, UnansweredRule) if inner is None else is_unanswered(inner)


def bare(rule: Rule, factor: float) -> Rule:
    """Return a rule out of what is wrapped about it at a scale; of one that is asked, that as if nobody answered."""
    inner = getattr(rule, "inner", None)
    if inner is not None:
        return bare(inner, factor)
    if not isinstance(rule, UnansweredRule) or not rule.now:
        return rule
    return bare(max(rule.now, key=lambda one: one.at(factor).verdict.severity), factor)


def _without_lead(found: Finding) -> str:
    """Return what was found without the name of what goes in there: the "if" before it says that already."""
    lead, _, rest = found.why.partition(": ")
    return rest if rest and found.feature.startswith(f"{lead} ") else found.why


def _worst(rules: Sequence[Rule], s: float) -> Finding | None:
    """Return the worst finding of some rules; None where there is none to ask."""
    return max((rule.at(s) for rule in rules), key=lambda finding: finding.verdict.severity, default=None)


def _verdict(found: Finding | None) -> Verdict:
    """Return a verdict; go where nothing is left to judge."""
    return Verdict.GO if found is None else found.verdict


def _alike(said: Sequence[Said]) -> list[Said]:
    """Return answers that pass alike, or ask for the same by their numbers and words, as one."""
    found: list[Said] = []
    for choices, finding in said:
        place = next((k for k, (_, other) in enumerate(found) if _same(other, finding)), None)
        if place is None:
            found.append((choices, finding))
        else:
            found[place] = (*found[place][0], *choices), found[place][1] or finding
    return found


def _same(one: Finding | None, other: Finding | None) -> bool:
    """Return whether two findings ask for the same; all that pass without work do."""
    if _verdict(one) is not _verdict(other):
        return False
    if one is None or other is None or one.verdict is Verdict.GO:
        return True
    words = NUMBER.sub("", one.remedy) == NUMBER.sub("", other.remedy)
    return words and one.measured == other.measured and one.limit == other.limit


def _short(finding: Finding) -> float:
    """Return by which share of its limit something misses it, squared; 0 where no numbers are compared."""
    if finding.measured is None or not finding.limit:
        return 0.0
    return (finding.measured / finding.limit - 1.0) ** 2

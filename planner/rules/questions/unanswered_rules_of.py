"""Which rules hang on which doubts: the rules of a job bound again under each answer, and laid beside each other."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any, cast

from planner.finding import Verdict
from planner.job import Job, kind_of
from planner.rules.questions.given_answers import Answers, Given, answered, combined, rounds
from planner.rules.questions.if_clause import Asked, Choice, as_clauses
from planner.rules.questions.unanswered_rule import Case, UnansweredRule
from planner.rules.rule import Rule
from planner.survey import Survey

Key = tuple[str, str, str]
"""Part, feature and rule."""
Slots = Mapping[Key, tuple[Rule, ...]]
"""What is said under some answers, by what it stands for in the rules as they are bound now."""


def hanging(
    job: Job, surveys: Mapping[str, Survey], asked: Sequence[Answers], bind: Callable[[Job], Sequence[Rule]]
) -> tuple[list[Rule], list[Given]]:
    """Return the rules of a job, those that hang on an answer wrapped, and rounds of answers that show each once.

    ``bind`` binds the rules of a changed job.
    """
    rules = bind(job)
    now = by_key(rules)
    single = {given: slots_of(now, bind(answered(job, surveys, asked, given))) for given in single_answers(asked)}
    keys = list(dict.fromkeys([*now, *(key for slots in single.values() for key in slots)]))
    touched = {
        key: frozenset(given[0][0] for given, slots in single.items() if slots.get(key, ()) != now.get(key, ()))
        for key in keys
    }
    sets = [numbers for numbers in dict.fromkeys(touched.values()) if numbers]
    tries = combined(asked, [numbers for numbers in sets if len(numbers) > 1])
    together = {
        given: slots_of(now, bind(answered(job, surveys, asked, given)))
        for given in dict.fromkeys(given for each in tries.values() for given in each)
    }
    found: list[Rule] = []
    for key in keys:
        numbers = touched[key]
        if not numbers or not (any(asked[number].guessed for number in numbers) or _is_held(now.get(key, ()))):
            found += now.get(key, ())
        elif seen := {given: together[given] for given in tries.get(numbers, ())}:
            found.append(_wrapped(key, now.get(key, ()), sorted(numbers), asked, seen))
        else:
            alone = _wrapped(key, now.get(key, ()), sorted(numbers), asked, single)
            found.append(replace(alone, whole=len(numbers) == 1))
    return found, rounds(asked, sets)


def _is_held(rules: Sequence[Rule]) -> bool:
    """Return whether something is held because nothing was named for it; what is only listed may stay so."""
    return any(kind_of(rule.rule).unchecked and rule.at(1.0).verdict is Verdict.HOLD for rule in rules)


def single_answers(asked: Sequence[Answers]) -> list[Given]:
    """Return every answer to every doubt by itself."""
    return [((number, choice),) for number, one in enumerate(asked) if one.tried for choice in range(len(one.answers))]


def by_key(rules: Iterable[Rule]) -> dict[Key, tuple[Rule, ...]]:
    """Return rules by part, feature and name."""
    found: dict[Key, tuple[Rule, ...]] = {}
    for rule in rules:
        key = rule.part, rule.feature, rule.rule
        found[key] = (*found.get(key, ()), rule)
    return found


def slots_of(now: Slots, rules: Sequence[Rule]) -> Slots:
    """Return rules by what they stand for now: one that is new for a feature takes the place of one that is gone.

    A bore that nothing claims is one finding now; under an answer its fit, its play and its wall stand in its place.
    """
    there = by_key(rules)
    gone: dict[tuple[str, str], Key] = {}
    for key in now:
        if key not in there:
            gone.setdefault(key[:2], key)
    found: dict[Key, tuple[Rule, ...]] = {}
    for key, mine in there.items():
        slot = key if key in now else gone.get(key[:2], key)
        found[slot] = (*found.get(slot, ()), *mine)
    return found


def _wrapped(
    key: Key, now: tuple[Rule, ...], numbers: Sequence[int], asked: Sequence[Answers], seen: Mapping[Given, Slots]
) -> UnansweredRule:
    """Return the rule of one feature with what is said of it under each answer of its doubts."""
    cases: dict[Choice, tuple[Rule, ...]] = {}
    for given, slots in seen.items():
        choices = dict(given)
        if len(choices) == 1 and next(iter(choices)) not in numbers:
            continue
        cases.setdefault(tuple(choices.get(number, -1) for number in numbers), slots.get(key, ()))
    alike: list[tuple[tuple[Rule, ...], list[Choice]]] = []
    for choice, rules in cases.items():
        same = next((choices for others, choices in alike if _bare(others) == _bare(rules)), None)
        if same is None:
            alike.append((rules, [choice]))
        else:
            same.append(choice)
    mine = [asked[number] for number in numbers]
    return UnansweredRule(
        part=key[0],
        feature=key[1],
        rule=key[2],
        asked=tuple(
            Asked(id=one.doubt.id, text=one.doubt.text, clauses=as_clauses(answer.text for answer in one.answers))
            for one in mine
        ),
        now=now,
        cases=tuple(Case(choices=tuple(choices), rules=rules) for rules, choices in alike),
    )


def _bare(rules: Sequence[Rule]) -> list[Rule]:
    """Return rules without the name of the duty that they print: load and pin ask for the same walls."""
    return [replace(cast("Any", rule), duty="") if hasattr(rule, "duty") else rule for rule in rules]

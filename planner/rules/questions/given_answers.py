"""The answers to every doubt of a job, each as what it changes of the job."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod

from planner.assembly import Doubt, with_stacks
from planner.job import Changes, Job, changes_of
from planner.survey import Survey

COMBINATIONS_MOST = 64
"""Answers to doubts that meet in one feature are tried in all combinations up to this number."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """One answer: its clause after "if", and what it changes."""

    name: str
    text: str
    changes: Changes


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """A doubt with its answers, in their order."""

    doubt: Doubt
    answers: tuple[Answer, ...]

    @property
    def tried(self) -> bool:
        """Whether rules can be asked under each answer: not where meshes would be measured again."""
        return not self.doubt.by_rule and not any(answer.changes.remeasures for answer in self.answers)

    @property
    def guessed(self) -> bool:
        """Whether the job has guessed an answer, rather than said nothing about it."""
        return any(answer.changes.of_guesses for answer in self.answers)


Given = tuple[tuple[int, int], ...]
"""Some doubts answered: pairs of the number of a doubt and the number of its answer, doubts in rising order."""


def answers_of(job: Job, doubts: Sequence[Doubt]) -> tuple[Answers, ...]:
    """Return every doubt with what its answers change.

    Raises
    ------
    JobError, ProfileError
        Where a job file with an answer in it would not load.
    """
    options = [option for doubt in doubts for option in doubt.options]
    changes = iter(changes_of(job, [option.edits for option in options]))
    return tuple(
        Answers(
            doubt=doubt,
            answers=tuple(Answer(name=o.name, text=o.text, changes=next(changes)) for o in doubt.options),
        )
        for doubt in doubts
    )


def answered(job: Job, surveys: Mapping[str, Survey], asked: Sequence[Answers], given: Given) -> Job:
    """Return the job with some doubts answered, the screws that an answer adds as long as their stack asks."""
    for number, choice in given:
        job = asked[number].answers[choice].changes.on(job)
    return with_stacks(job, surveys)


def apart(sets: Sequence[frozenset[int]]) -> dict[int, int]:
    """Return a turn for every doubt, so that those of the same turn meet in no feature and can be tried at once.

    >>> apart([frozenset({0, 2}), frozenset({1, 2})])
    {0: 0, 1: 0, 2: 1}
    """
    turns: dict[int, int] = {}
    for number in sorted({number for one in sets for number in one}):
        near = {turns[other] for one in sets if number in one for other in one if other in turns}
        turns[number] = next(turn for turn in range(len(near) + 1) if turn not in near)
    return turns


def combined(asked: Sequence[Answers], sets: Sequence[frozenset[int]]) -> dict[frozenset[int], list[Given]]:
    """Return, for each set of doubts that meet, the answers to try so that they are seen in all combinations.

    Doubts that meet nowhere are answered at once; an answer that a doubt has not stands for its last. A set with more
    combinations than are tried has none.
    """
    turns = apart(sets)
    tries: dict[frozenset[int], list[Given]] = {}
    for together in {frozenset(turns[number] for number in one) for one in sets}:
        mine = [number for number in sorted(turns) if turns[number] in together]
        order = sorted(together)
        lengths = [max(len(asked[n].answers) for n in mine if turns[n] == turn) for turn in order]
        if prod(lengths) <= COMBINATIONS_MOST:
            tries[together] = [
                tuple((n, min(choice[order.index(turns[n])], len(asked[n].answers) - 1)) for n in mine)
                for choice in product(*(range(length) for length in lengths))
            ]
    return {one: tries.get(frozenset(turns[number] for number in one), []) for one in sets}


def rounds(asked: Sequence[Answers], sets: Sequence[frozenset[int]]) -> list[Given]:
    """Return the fewest rounds of answers in which every answer is given once, doubts that meet never in one round."""
    turns = apart(sets)
    found: list[Given] = []
    for turn in range(max(turns.values(), default=-1) + 1):
        mine = [number for number in sorted(turns) if turns[number] == turn]
        for choice in range(max(len(asked[number].answers) for number in mine)):
            found.append(tuple((number, choice) for number in mine if choice < len(asked[number].answers)))
    return found

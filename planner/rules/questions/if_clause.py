"""Answers as a clause after "if"."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import takewhile

VERBS = frozenset(
    ("are", "carries", "carry", "cut", "cuts", "is", "only", "slide", "slides", "turn", "turns", "work", "works")
)
Choice = tuple[int, ...]
"""For each of some doubts, which of its answers is given; -1 where none is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A question that nobody has answered: its id, its text, and its answers as clauses after "if"."""

    id: str
    text: str
    clauses: tuple[str, ...]


def as_clauses(answers: Iterable[str]) -> tuple[str, ...]:
    """Return answers as clauses: what stands in brackets behind one tells what to do once it is given.

    >>> as_clauses(["nothing goes through", "something goes through (name it under [[hardware]])"])
    ('nothing goes through', 'something goes through')
    """
    return tuple(answer.partition(" (")[0] for answer in answers)


def clause(choices: Iterable[Choice], asked: Sequence[Asked]) -> str:
    """Return some combinations of answers as one clause; a doubt of which every answer leads there is not named.

    >>> duty = Asked(id="duty", text="What is it for?", clauses=("the arm carries load", "the arm only covers"))
    >>> bore = Asked(id="bore", text="What goes in?", clauses=("an M3 screw goes in", "nothing goes in"))
    >>> clause([(0, 0), (1, 0)], [duty, bore])
    'an M3 screw goes in'
    >>> clause([(0, 1)], [duty, bore])
    'the arm carries load, and nothing goes in'
    """
    given = frozenset(choices)
    alone = any(-1 in choice for choice in given)
    return (_each(given, asked) if alone else _told(given, asked)) or "anything is answered"


def one_of(clauses: Sequence[str]) -> str:
    """Return clauses joined by "or"; what they speak of is named once.

    >>> one_of(["the arm only covers", "the arm is a shell"])
    'the arm only covers or is a shell'
    >>> one_of(["a pin of 3 mm turns", "a pin of 2 mm slides"])
    'a pin of 3 mm turns or a pin of 2 mm slides'
    """
    words = [one.split(" ") for one in clauses]
    same = sum(1 for _ in takewhile(lambda same: len(set(same)) == 1, zip(*words, strict=False)))
    if len(clauses) > 1 and all(one[same : same + 1] and one[same] in VERBS for one in words):
        return " or ".join([clauses[0], *(" ".join(one[same:]) for one in words[1:])])
    return " or ".join(clauses)


def _each(given: frozenset[Choice], asked: Sequence[Asked]) -> str:
    """Return answers that were tried one doubt at a time: a doubt of which all lead there decides nothing."""
    sides = [sorted({choice[place] for choice in given} - {-1}) for place in range(len(asked))]
    return " or ".join(
        one_of([one.clauses[answer] for answer in side])
        for one, side in zip(asked, sides, strict=True)
        if 0 < len(side) < len(one.clauses)
    )


def _told(given: frozenset[Choice], asked: Sequence[Asked]) -> str:
    """Return combinations in the fewest words, whichever doubt comes first; empty where every answer leads there."""
    return min((_by(place, given, asked) for place in range(len(asked))), key=len, default="")


def _by(place: int, given: frozenset[Choice], asked: Sequence[Asked]) -> str:
    """Return combinations told by the answers to one doubt, each with what the others must be with it."""
    others = [one for k, one in enumerate(asked) if k != place]
    kinds, clauses = _kinds(given, place), asked[place].clauses
    told = []
    for rest, answers in kinds.items():
        mine = "" if len(answers) == len(clauses) else one_of([clauses[answer] for answer in sorted(answers)])
        more = _told(rest, others)
        if len(kinds) == 1:
            told.append(", and ".join(filter(None, (mine, more))))
        elif more and len(answers) > 1:
            told.append(f"{more} and either {mine}")
        else:
            told.append(" and ".join(filter(None, (mine, more))))
    return ", or ".join(filter(None, told))


def _kinds(given: frozenset[Choice], place: int) -> dict[frozenset[Choice], list[int]]:
    """Return the answers to one doubt by what the others must be with them."""
    rests: dict[int, set[Choice]] = {}
    for choice in sorted(given):
        rests.setdefault(choice[place], set()).add((*choice[:place], *choice[place + 1 :]))
    kinds: dict[frozenset[Choice], list[int]] = {}
    for answer, rest in rests.items():
        kinds.setdefault(frozenset(rest), []).append(answer)
    return kinds

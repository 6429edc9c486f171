"""Answers as a clause after "if"."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product

Choice = tuple[int, ...]
"""For each of some doubts, which of its answers is given; -1 where none is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A question that nobody has answered: its id, its text, and its answers as clauses after "if"."""

    id: str
    text: str
    clauses: tuple[str, ...]


def clause(choices: Iterable[Choice], asked: Sequence[Asked]) -> str:
    """Return some combinations of answers as one clause; a doubt of which every answer leads there is not named.

    >>> duty = Asked(id="duty", text="What is it for?", clauses=("it carries load", "it covers"))
    >>> bore = Asked(id="bore", text="What goes in?", clauses=("an M3 screw goes in", "nothing goes in"))
    >>> clause([(0, 0), (1, 0)], [duty, bore])
    'an M3 screw goes in'
    >>> clause([(0, 1)], [duty, bore])
    'it carries load, and nothing goes in'
    """
    given = set(choices)
    sides = [sorted({choice[place] for choice in given}) for place in range(len(asked))]
    if set(product(*sides)) != given:
        return " or ".join(_both(choice, asked) for choice in sorted(given))
    told = [
        " or ".join(one.clauses[choice] for choice in side if choice >= 0)
        for one, side in zip(asked, sides, strict=True)
        if len(set(side) - {-1}) < len(one.clauses)
    ]
    return ", and ".join(text for text in told if text) or "anything is answered"


def _both(choice: Choice, asked: Sequence[Asked]) -> str:
    """Return one combination of answers."""
    return " and ".join(one.clauses[each] for one, each in zip(asked, choice, strict=True) if each >= 0)

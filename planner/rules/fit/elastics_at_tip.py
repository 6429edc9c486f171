"""What return elastics take at one tip: how many of a table pull there, and at which arm."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.job import Cord, part_of
from planner.phrases import listed


@dataclass(frozen=True, slots=True, kw_only=True)
class AtTheTip:
    """What return elastics take at one tip, in N.

    Parameters
    ----------
    least_n, most_n
        The least and the most, by what is stated; one number where all is.
    open_ended
        Whether the force of one is not stated: then it is more by that.
    said
        The words for it in a sentence about the grip, such as `` with 6 N of elastic``.
    question, remedy
        What nobody stated, and how it is stated; empty where all is.
    """

    least_n: float = 0.0
    most_n: float = 0.0
    open_ended: bool = False
    said: str = ""
    question: str = ""
    remedy: str = ""


NO_ELASTIC = AtTheTip()


def at_the_tip(elastics: Sequence[Cord], copies: Mapping[str, int]) -> AtTheTip:
    """Return what elastics take at one tip.

    A force F at the lever k (its force over the force at the tip that holds it) takes F / k there: moments about the
    joint. Without a lever an elastic is taken as if it pulled at the tip itself, its least as nothing. Those of one
    table share the copies of the part that they move; where that part is not stated, all may pull at one tip.
    """
    least = most = 0.0
    told, open_ended, question, remedy = [], False, "", ""
    for one in elastics:
        if one.force_n is None:
            open_ended = True
            continue
        few, many = _at_one_tip(one, copies)
        lever = one.lever or 1.0
        least += few * one.force_n / lever if one.lever else 0.0
        most += many * one.force_n / lever
        if few < many:
            question = question or f"Which part do the {one.count} of {one.name} move?"
            remedy = remedy or f"state drives of {one.name}: those that move different copies do not add up"
        elif not one.lever:
            question = question or f"How many newtons at the tip hold against {many * one.force_n:g} N of {one.name}?"
            remedy = remedy or f"state lever of {one.name} (its force over the force at the tip that holds it)"
        of_it = f" at a lever of {one.lever:g}" if one.lever else ""
        told.append(f"{f'{many} x ' if many > 1 else ''}{one.force_n:g} N of {one.name}{of_it}")
    said = f" with {listed(told)}" if told else ""
    return AtTheTip(least_n=least, most_n=most, open_ended=open_ended, said=said, question=question, remedy=remedy)


def _at_one_tip(elastic: Cord, copies: Mapping[str, int]) -> tuple[int, int]:
    """Return how many elastics of a table pull at one tip, at least and at most."""
    driven = elastic.drives or (elastic.path[-1].copy if elastic.path else "")
    if elastic.count == 1:
        return 1, 1
    if part_of(driven) not in copies:
        return 1, elastic.count
    shared = 1 if driven != part_of(driven) else copies[part_of(driven)]
    most = -(-elastic.count // shared)
    return most, most

"""Stock: which spools several jobs have together, where each job lists its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from planner.job import Spool
from planner.phrases import listed

Kind = tuple[str, str]
"""A material and a colour."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """Colours and grams of the spools of one material, for which several jobs may list the same spool.

    ``least`` takes spools without an id that may be one for one, ``most`` takes each for a spool of its own; grams are
    None where nobody wrote them. ``doubts`` are questions that only whoever sees the spools can answer.
    """

    least: tuple[tuple[str, float | None], ...]
    most: tuple[tuple[str, float | None], ...]
    doubts: tuple[str, ...]


def stock_of(spools: Mapping[str, Sequence[Spool]], material: str) -> Stock:
    """Return the spools of a material, of what each job lists by its name.

    Spools of one id are one, with the least grams that a job writes: grams only get fewer. Of those without an id, the
    first, second, … of each job, fullest first, may be the same one.
    """
    mine = {job: [spool for spool in some if spool.material == material] for job, some in spools.items()}
    known: dict[str, list[Spool]] = {}
    bare: dict[str, dict[str, list[float | None]]] = {}
    for job, some in mine.items():
        for spool in some:
            if spool.id:
                known.setdefault(spool.id, []).append(spool)
            else:
                bare.setdefault(spool.colour, {}).setdefault(job, []).append(spool.left_g)
    named = [(same[0].colour, _least([spool.left_g for spool in same])) for same in known.values()]
    least, most, doubts = list(named), list(named), []
    for colour, jobs in bare.items():
        each = [sorted(grams, key=lambda left_g: -(left_g or 0.0)) for grams in jobs.values()]
        ranks = [[left_g for left_g, there in rank if there] for rank in _ranks(each)]
        merged = [(colour, _least(rank)) for rank in ranks]
        every = [(colour, left_g) for grams in each for left_g in grams]
        least += merged
        most += every
        if len(every) > len(merged):
            doubts.append(
                f"Are the {material} spools, {colour}, of {listed(jobs)} the same ones? Give each spool an id in "
                "[[spool]], the same in every job that uses it"
            )
    return Stock(least=tuple(least), most=tuple(most), doubts=tuple(doubts))


def _ranks(each: Sequence[Sequence[float | None]]) -> list[list[tuple[float | None, bool]]]:
    """Return the first of all, the second of all, …, each with whether its job has so many."""
    rows = zip_longest(*([(left_g, True) for left_g in grams] for grams in each), fillvalue=(None, False))
    return [list(row) for row in rows]


def _least(grams: Sequence[float | None]) -> float | None:
    """Return the least of what is written; None where nothing is."""
    return min((left_g for left_g in grams if left_g is not None), default=None)

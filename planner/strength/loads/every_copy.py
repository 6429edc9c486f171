"""The copies of a part, each under its own loads: the cases that differ, with the copies that they are on."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

import numpy as np

from planner.job import Part, copy_name, part_of
from planner.mechanism import PointLoad
from planner.phrases import listed
from planner.strength.loads.load_cases import guessed_cases, known_case, stated_case
from planner.strength.loads.part_load import LoadCase, PartLoad, Support
from planner.strength.loads.through_pins import all_pushes_of
from planner.survey import Survey

SAME_MM = 0.01
"""Places nearer to each other than this are one: copies stand where fits put them, and a mesh tells no more."""
SAME_SHARE = 1e-3
"""Forces that differ by less than this share of the greatest are one: a share of strength is told to a percent."""


def copies_of(part: Part, standing: Collection[str], loaded: Iterable[str]) -> list[str]:
    """Return the copies of a part whose loads may differ: those that stand somewhere, and those that a load is told of.

    The part itself where none does.
    """
    every = (copy_name(part.name, number) for number in range(1, part.count + 1))
    own = (copy for copy in loaded if part_of(copy) == part.name)
    return list(dict.fromkeys([*(copy for copy in every if copy in standing), *own])) or [part.name]


def copy_cases(
    part: Part,
    survey: Survey,
    supports: Sequence[Support],
    told: Sequence[tuple[Sequence[PointLoad], str]],
    load_n: float,
    *,
    driven: bool,
) -> list[LoadCase]:
    """Return the cases of one copy: what a mechanism is ``told`` to do to it, and its own load, placed or at its worst.

    The load of a copy that a cord has ``driven`` onto what it grips is among those already.
    """
    found = [known_case(all_pushes_of(load, supports), supports, said) for load, said in told if load]
    if driven:
        return found
    stated = stated_case(part, supports, load_n)
    return [*found, *([stated] if stated else guessed_cases(part, survey, supports, load_n))]


def told_and_open(cases: Sequence[LoadCase]) -> tuple[list[LoadCase], list[LoadCase]]:
    """Return the cases of which all is known, and those that ask for something."""
    return [one for one in cases if not one.asks], [one for one in cases if one.asks]


def over_copies(by_copy: Sequence[tuple[str, Sequence[LoadCase]]]) -> list[LoadCase]:
    """Return the cases of all copies of a part, those equal within rounding once; those of some copies name them.

    Parameters
    ----------
    by_copy
        Every copy with its cases, in the part's own mesh.
    """
    kept: list[tuple[LoadCase, list[str]]] = []
    for copy, cases in by_copy:
        for case in cases:
            same = next((on for one, on in kept if _same(one, case)), None)
            if same is None:
                kept.append((case, [copy]))
            elif copy not in same:
                same.append(copy)
    return [
        replace(case, copies=tuple(on), said=case.said if len(on) == len(by_copy) else f"{case.said}, on {listed(on)}")
        for case, on in kept
    ]


def _same(one: LoadCase, other: LoadCase) -> bool:
    """Return whether two cases are one but for rounding: the same loads at the same places, from the same cause."""
    if (one.said, one.asks, len(one.pushes)) != (other.said, other.asks, len(other.pushes)):
        return False
    if [load.over for load in one.every] != [load.over for load in other.every]:
        return False
    mine, theirs = _numbers(one.every), _numbers(other.every)
    gaps = np.abs(mine - theirs).max(axis=(0, 2))
    most = np.maximum(np.abs(mine).max(axis=(0, 2)), np.abs(theirs).max(axis=(0, 2)))
    return bool(gaps[0] <= SAME_MM and (gaps[1:] <= SAME_SHARE * most[1:]).all())


def _numbers(loads: Sequence[PartLoad]) -> np.ndarray:
    """Return places (mm), forces (N) and couples (N mm) of loads, n x 3 x 3."""
    return np.array([(load.at_mm, load.force_n, load.couple_n_mm) for load in loads])

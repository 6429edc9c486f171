"""Fillings of a span: equal to trying every set of plates."""

from __future__ import annotations

from itertools import chain, combinations, permutations

import numpy as np
import pytest

from planner.schedule.solver.fillings import Item, TooMany, fillings


def _worked(items: tuple[Item, ...]) -> int:
    """Return the soonest end of plates worked one after the other, by trying every order."""
    ends = []
    for order in permutations(items):
        at = 0
        for item in order:
            at = max(at, item.first) + item.takes_min
        ends.append(at)
    return min(ends)


def test_every_set_that_can_be_worked_is_written_down_and_no_other() -> None:
    """On 20 random spans of five plates the sets are those that some order works in time."""
    for seed in range(20):
        rng = np.random.default_rng(seed)
        items = [
            Item(key=(0, k), takes_min=int(rng.integers(10, 60)), first=int(rng.choice([0, 0, 40])), lost_min=0)
            for k in range(5)
        ]
        every = chain.from_iterable(combinations(items, n) for n in range(1, 6))
        meant = {frozenset(i.key for i in chosen) for chosen in every if _worked(chosen) <= 120}

        assert {frozenset(item.key for item in found) for found in fillings(items, 120, 99)} == meant


def test_too_many_sets_are_refused_rather_than_cut_short() -> None:
    """Five short plates have 31 sets: with room for 30 the question is given back."""
    items = [Item(key=(0, k), takes_min=1, first=0, lost_min=0) for k in range(5)]

    assert len(fillings(items, 100, 31)) == 31
    with pytest.raises(TooMany):
        fillings(items, 100, 30)

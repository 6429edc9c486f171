"""The compiled rounds: what is apart stays, what is out stays out, and seeds say everything."""

from __future__ import annotations

import numpy as np

from planner.packing.separation.bed_state import OUT
from planner.packing.separation.rounds import rounds
from planner.packing.separation.separate import Separator, empty_state
from tests.packing.thrown import Case


def test_the_same_seed_gives_the_same_spots_after_the_same_number_of_rounds() -> None:
    """Twice from the same throw, five rounds: the same spots to the bit; another seed gives others."""
    case = Case(101, 10)
    spots = []
    for seed in (1, 1, 2):
        state, _ = case.search.separator.state([{}, {}], range(len(case.units)), 7)
        rounds(state, 2, seed, 5)
        spots.append(state.spots.copy())

    assert np.array_equal(spots[0], spots[1])
    assert not np.array_equal(spots[0], spots[2])


def test_what_is_apart_is_not_moved() -> None:
    """A layout without overlap is left as it is, whatever the seed."""
    case = Case(102, 8)
    plates = case.search.first()  # 4 mm apart
    state, _ = Separator(case.units, case.search.ground, 3.5).state(plates, (), 1)
    before = state.spots.copy()

    assert rounds(state, len(plates), 3, 5) == 0.0
    assert np.array_equal(before, state.spots)


def test_an_outline_that_is_out_neither_moves_nor_counts() -> None:
    """Two outlines on one spot overlap; with one of them on no bed nothing does."""
    case = Case(103, 3)
    spot = case.search.first()[0][0]
    state, _ = case.search.separator.state([{0: spot, 1: spot}], (), 1)
    state.beds[1] = OUT
    before = state.spots.copy()

    assert rounds(state, 1, 1, 3) == 0.0
    assert np.array_equal(before, state.spots)


def test_a_new_state_has_room_for_what_is_asked() -> None:
    """Arrays have a row for each outline, corner and circle."""
    state = empty_state(3, 12, 5)

    assert (len(state.spots), len(state.ring), len(state.poles), len(state.ends)) == (3, 12, 5, 4)

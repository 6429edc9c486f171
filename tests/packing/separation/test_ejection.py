"""Ejection moves change places; they lose and double nothing."""

from __future__ import annotations

import pytest

from planner.packing.separation.ejection import Ejector
from tests.packing.thrown import Case


@pytest.mark.parametrize("seed", range(101, 105))
def test_a_move_never_loses_or_doubles_a_copy(seed: int) -> None:
    """Every answer of five draws holds before the proof: all copies once, nothing overlaps, margins kept."""
    case = Case(seed, 12)
    plates, ejector = case.search.first(), Ejector(case.search.filler, case.search.separator, seed)
    found = [answer for _ in range(5) if (answer := ejector.moved(plates))]

    assert len(plates) > 1
    assert found
    for answer in found:
        assert case.wrong(answer) == ()


def test_the_same_seed_gives_the_same_move() -> None:
    """Draws and rounds are seeded and counted, never timed."""
    case = Case(102, 12)
    plates = case.search.first()
    one, other = (Ejector(case.search.filler, case.search.separator, 3) for _ in range(2))

    for _ in range(2):
        assert one.moved(plates) == other.moved(plates)

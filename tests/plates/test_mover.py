"""Moves between beds: fewer where there may be fewer, fuller, never worse."""

from __future__ import annotations

import itertools

from planner.plates.clock import SearchClock
from planner.plates.mover import Mover
from tests.plates.thrown import Case


class Ticks(SearchClock):
    """A clock that counts how often it is asked."""

    def __init__(self) -> None:
        super().__init__()
        self.ticks = itertools.count()

    def __call__(self) -> float:
        """Return the number of the question."""
        return float(next(self.ticks))


def _mover(case: Case) -> Mover:
    """Return the mover of a case's search, its time counted in questions."""
    return case.search._mover(Ticks())


def test_a_bed_is_emptied_where_the_others_have_room() -> None:
    """Six pieces laid on three beds, two on each, come to lie on two."""
    case = Case(101, 5)
    filler = case.search.filler
    plates = [filler.beds([k, k + 1], turns_n=4, score=lambda x, y: x + y)[0][0] for k in (0, 2, 4)]
    found = _mover(case).fewer(plates, 1, 2000.0)

    assert found
    assert len(found[0]) == 2
    assert sorted(k for plate in found[0] for k in plate) == list(range(6))


def test_fuller_plates_are_proved_and_never_worse() -> None:
    """Each thread's answer holds before the proof and is at least as good as what came in."""
    case = Case(103, 14)
    plates = case.search.first()
    found = _mover(case).fuller(plates, 1, 200.0)

    assert found
    for answer in found:
        assert case.wrong(answer) == ()
        assert case.search.worth(answer) <= case.search.worth(plates)


def test_one_plate_is_left_alone() -> None:
    """There is no other bed to move to."""
    case = Case(101, 2)

    assert _mover(case).fuller(case.search.first(), 1, 10.0) == []

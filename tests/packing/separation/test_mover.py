"""Moves between beds: fewer where there may be fewer, fuller, never worse."""

from __future__ import annotations

from planner.packing.search.effort import Effort
from planner.packing.separation.mover import Mover
from tests.packing.thrown import Case


def _mover(case: Case) -> Mover:
    """Return the mover of a case's search."""
    return case.search._mover()


def test_a_bed_is_emptied_where_the_others_have_room() -> None:
    """Six pieces laid on three beds, two on each, come to lie on two."""
    case = Case(101, 5)
    filler = case.search.filler
    plates = [filler.beds([k, k + 1], turns_n=4, score=lambda x, y: x + y)[0][0] for k in (0, 2, 4)]
    found = _mover(case).fewer(plates, 1, Effort(20.0))

    assert found
    assert len(found[0]) == 2
    assert sorted(k for plate in found[0] for k in plate) == list(range(6))


def test_fuller_plates_are_proved_and_better() -> None:
    """The answer holds before the proof, and less lies on its last plate than on that of a first answer."""
    case = Case(103, 14)
    plates = case.search.first()
    found = _mover(case).fuller(plates, 1, Effort(1.0))

    assert case.wrong(found) == ()
    assert case.search.worth(found) < case.search.worth(plates)


def test_the_same_effort_gives_the_same_plates() -> None:
    """Threads meet after counted work, so that it does not matter which of them is faster."""
    case = Case(103, 14)
    plates = case.search.first()
    one, other = (_mover(case).fuller(plates, 1, Effort(0.6)) for _ in range(2))

    assert one == other


def test_one_plate_is_left_alone() -> None:
    """There is no other bed to move to."""
    case = Case(101, 2)
    plates = case.search.first()

    assert _mover(case).fuller(plates, 1, Effort(1.0)) == plates

"""Pieces of a failed plate: again where they lay, and of copies in turn only those that were not finished."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import pytest

from planner.packing import Plate, counted
from planner.plan import Failure, Plan
from planner.plan.after_failure.pieces_again import plate_again, scrap, unfinished, whole_pieces
from planner.plan.plates.plate_inputs import PlateInputs


def _failed(at_s: float, lost: Mapping[str, int] | None = None) -> Failure:
    """Return a failure at a time."""
    return Failure(plate=1, at_s=at_s, cause="shifted", lost=lost or {})


def _in_turn(plan: Plan) -> Plate:
    """Return the plate of two pads as if they were printed one after the other."""
    return replace(next(p for p in plan.plates if counted(p.placements) == {"pad": 2}), in_turn=True)


def test_lost_pieces_lie_where_they_lay_and_all_of_them_are_the_plate_itself(heron_plan: Plan) -> None:
    """One jaw and the saddle of four pieces: two places kept, half the fill, less time; none lost is no plate."""
    inputs, plate = PlateInputs.of(heron_plan), heron_plan.plates[1]
    some = plate_again(inputs, plate, {"jaw": 1, "saddle": 1})
    assert some is not None

    assert counted(some.placements) == {"jaw": 1, "saddle": 1}
    assert set(some.placements) < set(plate.placements)
    assert some.number == plate.number
    assert some.fill == pytest.approx(plate.fill / 2)
    assert some.duration_s.value < plate.duration_s.value
    assert plate_again(inputs, plate, counted(plate.placements)) is plate
    assert plate_again(inputs, plate, {"jaw": 0}) is None


def test_of_copies_in_turn_the_last_ones_are_printed_again(heron_plan: Plan) -> None:
    """The first was finished: of two pads, the one lost is the second."""
    plate = _in_turn(heron_plan)
    again = plate_again(PlateInputs.of(heron_plan), plate, {"pad": 1})
    assert again is not None

    assert again.placements == plate.placements[1:]


@pytest.mark.parametrize(("share", "lost", "left_n"), [(0.1, {}, 2), (0.9, {}, 1), (5.0, {}, 1), (0.9, {"pad": 2}, 2)])
def test_what_stopping_leaves_in_turn_is_what_was_not_finished_or_is_lost(
    heron_plan: Plan, share: float, lost: dict[str, int], left_n: int
) -> None:
    """Early: both; late: the second alone; after the planned end still the last; one told as lost counts, too."""
    plate = _in_turn(heron_plan)
    failure = _failed(share * plate.duration_s.value, lost)

    assert unfinished(PlateInputs.of(heron_plan), plate, failure) == {"pad": left_n}


def test_stopping_a_plate_of_layers_leaves_all_of_it(heron_plan: Plan) -> None:
    """Printed together, no piece is finished before the end."""
    plate = heron_plan.plates[1]
    failure = _failed(0.9 * plate.duration_s.value)

    assert unfinished(PlateInputs.of(heron_plan), plate, failure) == counted(plate.placements)


def test_whole_pieces_and_scrap_are_counted_by_part(heron_plan: Plan) -> None:
    """Of deck, two jaws and saddle: one jaw again leaves the other three; in turn only the piece begun is scrap."""
    plate, pads = heron_plan.plates[1], _in_turn(heron_plan)

    assert whole_pieces(plate, {"jaw": 1}) == {"deck": 1, "jaw": 1, "saddle": 1}
    assert whole_pieces(plate, counted(plate.placements)) == {}
    assert scrap(plate, {"jaw": 2, "deck": 1}, _failed(1.0)) == {"jaw": 2, "deck": 1}
    assert scrap(pads, {"pad": 2}, _failed(1.0)) == {"pad": 1}
    assert scrap(pads, {"pad": 2}, _failed(1.0, {"pad": 2})) == {"pad": 2}

"""Bearings and inserts by the sizes of the tables: ISO 15 for bearings, makers' usual bores for inserts (from memory)."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.assembly.doubts.mates.bearing_answers import bearing_answer, bearing_in, insert_answers
from planner.job import read_tables
from tests.assembly.by_hand.truths import scene

TABLES = read_tables()
BORE = scene("linkage")[1]["finger_tip"].bores[0]


@pytest.mark.parametrize(
    ("seat_mm", "deep_mm", "below_mm", "label"),
    [
        (22.1, 7.2, 14.0, "8 × 22 × 7"),  # ISO 15: 8 x 22 x 7; 14 clears its inner ring
        (22.1, 7.0, 12.0, "8 × 22 × 7"),  # 12 is as wide as its inner ring, which is 12.1 in catalogues (from memory)
        (22.1, 7.2, 8.0, None),  # 8 mm does not
        (22.1, 3.0, 14.0, None),  # less than half as deep as it is wide
        (20.5, 7.2, 14.0, None),  # between two sizes
    ],
)
def test_a_seat_is_told_by_outside_width_and_shoulder(
    seat_mm: float, deep_mm: float, below_mm: float, label: str | None
) -> None:
    """All three must agree with one bearing."""
    seat = replace(BORE, drawn_diameter_mm=seat_mm, depth_mm=deep_mm)
    found = bearing_in(seat, replace(BORE, drawn_diameter_mm=below_mm), TABLES)

    assert (found.label if found else None) == label


def test_a_bearing_is_written_with_its_outside() -> None:
    """8 x 22 x 7 in 22.1 mm: bore, outside and seat stand in the record."""
    stock = next(one for one in TABLES.bearings if one.label == "8 × 22 × 7")
    (bearing,) = bearing_answer(stock, 22.1, ("a",), 2, ()).hardware

    assert (bearing.kind, bearing.diameter_mm, bearing.size_mm, bearing.bore_mm) == ("bearing", 8.0, 22.0, 22.1)


@pytest.mark.parametrize(("size_mm", "deep_mm", "names"), [(4.0, 6.0, ["m3-insert"]), (4.0, 3.0, []), (4.4, 6.0, [])])
def test_an_insert_needs_its_bore_and_its_depth(size_mm: float, deep_mm: float, names: list[str]) -> None:
    """4.0 x 6 takes an insert for M3 of 5.7 mm; 3 mm are too shallow, 4.4 mm are for none."""
    found = insert_answers(size_mm, deep_mm, ("a",), 1, TABLES, blind=True)

    assert [answer.name for answer in found] == names

"""Stock lengths, worked out by hand from the series of ISO 4762."""

from __future__ import annotations

import pytest

from planner.job import Hardware, read_tables
from planner.supplies.built.stock_lengths import Stacked, length_of

M3 = next(size for size in read_tables().machine_screws if size.label == "M3")


def _screw(stack_mm: float | None) -> Hardware:
    """Return an M3 screw through a stack."""
    return Hardware(name="screw", kind="machine-screw", diameter_mm=3.0, joins=("a",), stack_mm=stack_mm)


@pytest.mark.parametrize(
    ("stack_mm", "on_it", "length_mm"),
    [
        (10.0, Stacked(), 10.0),
        (10.0, Stacked(washers_n=2, washer_mm=0.5, nut_mm=2.4), 16.0),
        (10.9, Stacked(blind=True), 10.0),
        (2.0, Stacked(blind=True), None),
        (None, Stacked(), None),
        (500.0, Stacked(), None),
    ],
)
def test_through_screws_reach_and_blind_ones_do_not_come_out(
    stack_mm: float | None, on_it: Stacked, length_mm: float | None
) -> None:
    """10 + 1.0 + 2.4 = 13.4 mm goes up to 16; into plastic 10.9 mm goes down to 10; what no stock has is unknown."""
    found, why = length_of(_screw(stack_mm), M3, 1.0, on_it)

    assert found == length_mm
    assert (stack_mm is None) == ("stack_mm" in why)


def test_longer_than_the_standard_lists_is_said() -> None:
    """ISO 4762 lists M3 up to 30 mm (from memory)."""
    assert "30 mm" in length_of(_screw(33.0), M3, 1.0, Stacked())[1]
    assert "standard" not in length_of(_screw(29.0), M3, 1.0, Stacked())[1]

"""Pockets of nuts at scale: by hand on both sides of what fits, and of what a hand files."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.rules.fit.seat_tight import SeatTight
from planner.sourced import stated


@pytest.mark.parametrize(
    ("percent", "verdict", "turns"), [(90.0, "no-go", False), (105.0, "go", False), (130.0, "go", True)]
)
def test_a_nut_that_turns_in_its_pocket_is_told(percent: float, verdict: str, turns: bool) -> None:
    """M5, 8 mm across flats and 8 / cos 30 = 9.24 across corners (ISO 4032): a pocket of 8.3 prints at 7.27, 8.52, 10.6."""
    seat = SeatTight(
        part="a",
        feature="seat",
        hardware="nut",
        pocket_mm=8.3,
        at_mm=None,
        undersize_mm=stated(0.2),
        size_mm=8.0,
        clearance_mm=stated(0.1),
        hexagon=True,
    )
    found = seat.at(percent / 100.0)

    assert found.verdict.value == verdict
    assert ("turns in its pocket" in found.caution) is turns
    assert replace(seat, hexagon=False).at(1.3).caution == ""  # a round pocket never held it


@pytest.mark.parametrize(
    ("pocket_mm", "supposed", "by_file", "verdict"),
    [
        (8.30, False, True, "go"),
        (8.29, False, True, "go-with-work"),
        (7.80, False, True, "go-with-work"),  # half a millimetre is filed, a quarter off either side
        (7.79, False, True, "no-go"),
        (8.29, False, False, "no-go"),  # an insert asks for a true hole
        (7.80, True, True, "go-with-work"),  # filed or not needed: both answers pass
        (7.79, True, True, "hold"),
    ],
)
def test_a_pocket_that_is_a_little_narrow_is_filed(
    pocket_mm: float, supposed: bool, by_file: bool, verdict: str
) -> None:
    """An M5 nut, 8 mm across flats, with 0.1 mm of clearance in a pocket that prints 0.2 mm narrower than drawn."""
    seat = SeatTight(
        part="a",
        feature="seat",
        hardware="nut",
        pocket_mm=pocket_mm,
        at_mm=None,
        undersize_mm=stated(0.2),
        size_mm=8.0,
        clearance_mm=stated(0.1),
        hexagon=True,
        supposed=supposed,
        file_mm=stated(0.5) if by_file else None,
    )
    found = seat.at(1.0)

    assert found.verdict.value == verdict
    assert ("file the flats of the pocket until nut goes in, to 8.10 mm" in found.remedy) is (verdict == "go-with-work")
    assert all(seat.verdict(turn) is not seat.verdict(0.9999 * turn) for turn in seat.turns())

"""Fits against the outside: machined fits of ISO 286-2 and the number and letter drills of ASME B94.11M."""

from __future__ import annotations

import csv
from dataclasses import replace

import pytest

from planner.assembly.bore_ends import printed_ends
from planner.job import Fit, read_limits, read_tables
from planner.rules.fit.fitted_openings import SeatTight
from planner.sourced import stated
from tests.shapes import DATA

LIMITS, TABLES = read_limits(), read_tables()


def _rows(name: str) -> list[dict[str, str]]:
    """Return the rows of a reference table."""
    lines = (DATA / "references" / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("# ")))  # "#78" is a drill


FITS = [row for row in _rows("iso286_fits_1_30mm.csv") if 3 <= float(row["nominal_mm"]) <= 10]
DRILLS_MM = sorted(float(row["mm"]) for row in _rows("drill_number_letter_in_mm.csv"))


@pytest.mark.parametrize("row", FITS, ids=lambda row: f"{row['nominal_mm']} {row['fit']}")
def test_a_printed_joint_runs_looser_than_a_machined_one(row: dict[str, str]) -> None:
    """A printed bore holds no H7: a turning joint's plays exceed those of every fit of ISO 286-2 that is listed.

    Table by pressfit 0.1.0 (MIT), which agrees with isofits 1.0: least play against least, largest against largest.
    """
    nominal = float(row["nominal_mm"])
    ends = printed_ends(nominal, "dowel-pin", "turning", LIMITS, TABLES)

    assert ends is not None
    assert ends[0] - nominal > float(row["clearance_min"]) / 1000
    assert ends[1] - nominal > float(row["clearance_max"]) / 1000


@pytest.mark.parametrize("fit", ["turning", "sliding"])
@pytest.mark.parametrize("screw", TABLES.machine_screws, ids=lambda screw: screw.label)
def test_a_drill_of_the_series_makes_the_bore(screw: object, fit: Fit) -> None:
    """Between the least and the largest bore of every stock screw lies a number or letter drill (ASME B94.11M)."""
    diameter = screw.diameter_mm.value  # type: ignore[attr-defined]
    ends = printed_ends(diameter, "machine-screw", fit, LIMITS, TABLES)

    assert ends is not None
    assert any(ends[0] <= drill <= ends[1] for drill in DRILLS_MM)


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

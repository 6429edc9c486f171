"""Fits against the outside: machined fits of ISO 286-2 and the number and letter drills of ASME B94.11M."""

from __future__ import annotations

import csv

import pytest

from planner.assembly.bore_ends import printed_ends
from planner.job import Fit, read_limits, read_tables
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

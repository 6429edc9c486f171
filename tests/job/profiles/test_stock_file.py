"""Stock sizes: by kind, smallest first, with lengths that rise."""

from __future__ import annotations

import csv
import math
from itertools import pairwise

import pytest

from planner.job import StockSize, read_tables
from tests.shapes import DATA

ISO_4762 = (2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100)
"""Nominal lengths up to 100 mm, transcribed from an open table (Apache-2.0) of the standard."""


def test_sizes_and_lengths_rise() -> None:
    """Diameters and lengths in each table rise strictly; webbing falls or rises by one rule."""
    tables = read_tables()
    for sizes in (tables.machine_screws, tables.wood_screws, tables.dowel_pins, tables.binding_posts, tables.inserts):
        assert all(a.diameter_mm.value < b.diameter_mm.value for a, b in pairwise(sizes))
        for size in sizes:
            assert all(a < b for a, b in pairwise(size.lengths_mm)), size.label
    assert len(set(tables.webbing_mm)) == len(tables.webbing_mm) > 0


def _open_table() -> dict[str, dict[str, str]]:
    """Return the rows of an open table (Apache-2.0) of ISO 4032, ISO 7089 and ISO 261, by size."""
    text = (DATA / "references" / "fasteners_metric_m2_m8.csv").read_text(encoding="utf-8").splitlines()
    return {row["size"]: row for row in csv.DictReader(line for line in text if not line.startswith("#"))}


@pytest.mark.parametrize("size", read_tables().machine_screws, ids=lambda size: size.label)
def test_nuts_washers_and_pitches_are_those_of_the_standards(size: StockSize) -> None:
    """As an open table has them; that one lists the greatest thickness of a washer, ours the nominal, 0.2 mm less at most."""
    row = _open_table()[size.label]
    assert size.pitch_mm is not None
    assert size.nut_height_mm is not None
    assert size.nut_flats_mm is not None
    assert size.washer_mm is not None
    assert size.washer_thick_mm is not None

    assert size.pitch_mm.value == float(row["pitch"])
    assert size.nut_height_mm.value == float(row["nut_m"])
    assert size.nut_flats_mm.value == float(row["nut_s"])
    assert size.washer_mm.value == float(row["washer_d2"])
    assert 0.0 <= float(row["washer_h"]) - size.washer_thick_mm.value <= 0.2 + 1e-9


def test_screws_come_in_lengths_of_the_standard() -> None:
    """Every length is a nominal length of ISO 4762, and a locking nut is higher than a plain one (ISO 7040, ISO 4032)."""
    for size in read_tables().machine_screws:
        assert set(size.lengths_mm) <= set(ISO_4762)
        assert size.longest_mm is not None
        assert size.longest_mm.value in ISO_4762
        if size.locking_height_mm is not None and size.nut_height_mm is not None:
            assert size.locking_height_mm.value > size.nut_height_mm.value


def test_bearings_have_room_for_their_balls() -> None:
    """Bore, outside and width of every row rise together as those of ISO 15 do: d < D, and B under (D - d)."""
    for size in read_tables().bearings:
        assert size.outside_mm is not None
        assert size.width_mm is not None
        assert size.label == f"{size.diameter_mm.value:g} × {size.outside_mm.value:g} × {size.width_mm.value:g}"
        assert size.diameter_mm.value < size.outside_mm.value
        assert size.width_mm.value < size.outside_mm.value - size.diameter_mm.value


def test_heads_of_wood_screws_are_about_those_of_the_metric_standard() -> None:
    """DIN 97 lists 5.6, 7.5 and 9.2 mm for 3, 4 and 5 mm (from memory): 1.84 to 1.87 d; by gauge and sharp they are 2 d."""
    for size in read_tables().wood_screws:
        assert size.head_mm is not None
        assert size.head_high_mm is not None
        assert 1.8 < size.head_mm.value / size.diameter_mm.value < 2.1
        # a cone of 82 degrees from shank to rim is (head - shank) / 2 / tan 41 high
        cone = (size.head_mm.value - size.diameter_mm.value) / 2 / math.tan(math.radians(41.0))
        assert size.head_high_mm.value == pytest.approx(cone, rel=0.1)

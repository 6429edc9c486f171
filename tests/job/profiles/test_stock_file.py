"""Stock sizes: by kind, smallest first, with lengths that rise."""

from __future__ import annotations

from itertools import pairwise

from planner.job import read_tables


def test_sizes_and_lengths_rise() -> None:
    """Diameters and lengths in each table rise strictly; webbing falls or rises by one rule."""
    tables = read_tables()
    for sizes in (tables.machine_screws, tables.wood_screws, tables.dowel_pins, tables.binding_posts):
        assert all(a.diameter_mm.value < b.diameter_mm.value for a, b in pairwise(sizes))
        for size in sizes:
            assert all(a < b for a, b in pairwise(size.lengths_mm)), size.label
    assert len(set(tables.webbing_mm)) == len(tables.webbing_mm) > 0

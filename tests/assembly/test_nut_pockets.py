"""Which hexagonal pockets belong to a bore, and whose nut they are drawn for."""

from __future__ import annotations

import pytest

from planner.assembly import pockets_on, stock_of, takes_nut
from planner.job import read_tables
from planner.survey import survey
from tests.assembly.doubts.mates.test_nut_answers import trapped

TABLES = read_tables()


@pytest.mark.parametrize(("off_mm", "n"), [(0.0, 1), (0.1, 1), (5.0, 0)])
def test_a_pocket_belongs_to_the_bore_on_its_axis(off_mm: float, n: int) -> None:
    """A tenth beside it is drawn badly; 5 mm beside it lies another pocket."""
    found = survey(trapped(5.7, off_mm=off_mm))

    assert len(pockets_on(found, found.bores[0])) == n


@pytest.mark.parametrize(("flats_mm", "screw_mm", "takes"), [(5.5, 3.0, True), (6.2, 3.0, True), (7.2, 3.0, False)])
def test_a_pocket_is_drawn_hardly_wider_than_its_nut(flats_mm: float, screw_mm: float, takes: bool) -> None:
    """M3: 5.5 mm across flats (ISO 4032); 7.2 mm are for M4's 7."""
    found = survey(trapped(flats_mm))
    stock = stock_of(TABLES, "machine-screw", screw_mm)

    assert stock is not None
    assert takes_nut(pockets_on(found, found.bores[0])[0], stock) is takes

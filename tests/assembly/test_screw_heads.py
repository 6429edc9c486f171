"""Seats of screw heads against a published table of counterbores."""

from __future__ import annotations

import pytest

from planner.assembly.screw_heads import head_fits, head_seats
from planner.survey import survey
from tests.shapes import cuboid, cylinder, solid_of

COUNTERBORES_MM = {3.0: 6.5, 4.0: 8.0, 5.0: 10.0, 6.0: 11.0}
"""Counterbores for cylinder heads by screw: DIN 974-1, from memory."""


@pytest.mark.parametrize("screw_mm", COUNTERBORES_MM)
def test_a_usual_counterbore_is_for_its_own_screw(screw_mm: float) -> None:
    """It fits the head of its screw, and is too wide for that of a screw two sizes smaller."""
    seat = COUNTERBORES_MM[screw_mm]

    assert head_fits(seat, screw_mm)
    assert not head_fits(seat, {3.0: 2.0, 4.0: 2.5, 5.0: 3.0, 6.0: 4.0}[screw_mm])


def test_only_a_step_of_the_same_stack_is_a_seat() -> None:
    """A bore of 3.4 mm under a step of 6.5 and one of 12 has three cylinders; another bore of 6.5 mm lies beside it."""
    body = cuboid(60, 20, 12).manifold - cylinder(3.4, 40, 96).translate((10, 10, -5))
    for diameter_mm, at in ((6.5, (10, 10, 5)), (12.0, (10, 10, 9)), (6.5, (45, 10, -5))):
        body -= cylinder(diameter_mm, 40, 96).translate(at)
    found = survey(solid_of(body, "a"))
    narrow = min(found.bores, key=lambda bore: bore.drawn_diameter_mm)

    assert sorted(round(bore.drawn_diameter_mm, 2) for bore in found.stack_of(narrow)) == [3.4, 6.5, 12.0]
    assert [round(bore.drawn_diameter_mm, 2) for bore in head_seats(found, narrow, 3.0)] == [6.5]
    assert head_seats(found, narrow, 8.0) == ()

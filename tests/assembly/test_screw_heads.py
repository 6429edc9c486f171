"""Seats of screw heads against a published table of counterbores."""

from __future__ import annotations

import pytest

from planner.assembly.screw_heads import head_fits

COUNTERBORES_MM = {3.0: 6.5, 4.0: 8.0, 5.0: 10.0, 6.0: 11.0}
"""Counterbores for cylinder heads by screw: DIN 974-1, from memory."""


@pytest.mark.parametrize("screw_mm", COUNTERBORES_MM)
def test_a_usual_counterbore_is_for_its_own_screw(screw_mm: float) -> None:
    """It fits the head of its screw, and is too wide for that of a screw two sizes smaller."""
    seat = COUNTERBORES_MM[screw_mm]

    assert head_fits(seat, screw_mm)
    assert not head_fits(seat, {3.0: 2.0, 4.0: 2.5, 5.0: 3.0, 6.0: 4.0}[screw_mm])

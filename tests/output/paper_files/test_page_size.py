"""Paper sizes: those of the standards, with the same room left on each."""

from __future__ import annotations

import pytest

from planner.output import SIZES


def test_a4_and_letter_are_the_standards_sizes() -> None:
    """ISO 216: A4 is 210 x 297 mm; ANSI/ASME Y14.1: Letter is 8.5 x 11 inches."""
    a4, letter = SIZES["a4"], SIZES["letter"]

    assert (a4.width_mm, a4.height_mm) == (210.0, 297.0)
    assert (letter.width_mm, letter.height_mm) == pytest.approx((8.5 * 25.4, 11 * 25.4))
    assert a4.inner_mm == (210.0 - 26.0, 297.0 - 26.0 - 30.0)

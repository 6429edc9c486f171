"""Drawings on the PDF: true to the millimetre where they are bound to their size, else as large as there is room."""

from __future__ import annotations

import pytest
from reportlab.lib.units import mm

from planner.output.drawing.shapes import Drawing
from planner.output.paper_files.pdf_drawing import Box, Drawn

TALL = 1000.0 * mm


def _drawing(wide_mm: float, high_mm: float, *, true_size: bool) -> Drawing:
    """Return an empty drawing."""
    return Drawing(width_mm=wide_mm, height_mm=high_mm, about="nothing", shapes=(), true_size=true_size)


def test_a_drawing_at_true_size_is_never_scaled() -> None:
    """80 x 50 mm stay so, in a column of 40 mm and on a page that has 30 mm left; an inch has 72 points."""
    drawn = Drawn(_drawing(80, 50, true_size=True), 40 * mm)

    assert drawn.wrap(100 * mm, 30 * mm) == pytest.approx((100 * mm, 50 * mm))
    assert (drawn.factor, drawn.left) == (1.0, 0.0)
    assert 25.4 * mm == pytest.approx(72.0)


def test_another_drawing_is_as_wide_as_is_asked_for_and_stands_in_the_middle() -> None:
    """80 x 50 mm in 40 mm are 25 mm high, with 30 mm of the paper's 100 at each side."""
    drawn = Drawn(_drawing(80, 50, true_size=False), 40 * mm)

    assert drawn.wrap(100 * mm, TALL)[1] == pytest.approx(25 * mm)
    assert drawn.left == pytest.approx(30 * mm)


def test_what_is_higher_than_the_room_left_shrinks_to_it() -> None:
    """A square of 200 mm where 100 mm are left is 100 mm high."""
    drawn = Drawn(_drawing(200, 200, true_size=False), 200 * mm)

    assert drawn.wrap(200 * mm, 100 * mm)[1] == pytest.approx(100 * mm)


def test_a_box_to_tick_is_as_wide_as_it_is_asked_for() -> None:
    """3.4 mm."""
    assert Box(3.4).wrap(TALL, TALL)[0] == pytest.approx(3.4 * mm)

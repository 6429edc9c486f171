"""Shapes as SVG: y points up in the drawing, and true size is stated in mm."""

from __future__ import annotations

from planner.output.drawing.shapes import Drawing, Label, box, svg


def test_y_is_turned_and_names_are_escaped() -> None:
    """A box at the floor of a drawing 50 mm high lies at y 50 of the SVG; a label is text, never markup."""
    drawing = Drawing(
        width_mm=100.0, height_mm=50.0, about="<a>", shapes=(box(0, 0, 10, 5),), labels=(Label(at=(1, 2), text="<b>"),)
    )
    text = svg(drawing)

    assert "M0.000,50.000L10.000,50.000L10.000,45.000L0.000,45.000Z" in text
    assert "&lt;b&gt;" in text
    assert 'aria-label="&lt;a&gt;"' in text


def test_only_true_size_states_millimetres() -> None:
    """A template says its width in mm; any other drawing fits its place."""
    drawing = Drawing(width_mm=30.0, height_mm=20.0, about="", shapes=(), true_size=True)

    assert 'width="30mm" height="20mm"' in svg(drawing)
    assert 'mm"' not in svg(Drawing(width_mm=30.0, height_mm=20.0, about="", shapes=()))

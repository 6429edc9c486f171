"""Tables that run from the right: the first column stands there, with its own width and its own look."""

from __future__ import annotations

from planner.output.paper_files.pdf_table import Way, table


def test_columns_change_sides_with_their_widths() -> None:
    """A name, a value and a reason from the right, as wide as they are from the left."""
    ahead = table([["name", "value", "why"]], [20.0, 30.0, 50.0], [], Way())
    back = table([["name", "value", "why"]], [20.0, 30.0, 50.0], [], Way(translated=True, leftward=True))

    assert ahead._cellvalues == [["name", "value", "why"]]
    assert back._cellvalues == [["why", "value", "name"]]
    assert back._argW == ahead._argW[::-1]


def test_a_cell_over_two_columns_is_shown_from_the_right_too() -> None:
    """The library draws the leftmost cell of a span: the value stands there, beside its name at the right."""
    rows = [["name", "value", "why"], ["which", "a value over both", ""]]
    back = table(rows, [20.0, 30.0, 50.0], [("SPAN", (1, 1), (2, 1))], Way(translated=True, leftward=True))

    assert back._cellvalues == [["why", "value", "name"], ["a value over both", "", "which"]]
    assert back._spanCmds == [("SPAN", (0, 1), (1, 1))]

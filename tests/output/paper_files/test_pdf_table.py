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

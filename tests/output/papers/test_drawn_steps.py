"""Every step has its drawing, or the reader is told why not."""

from __future__ import annotations

from planner.output import Sheet
from planner.output.paper_files.sheet import Rows
from tests.output.said import flat, said


def test_every_step_of_a_device_in_place_is_drawn(sheets: dict[str, Sheet]) -> None:
    """The Heron's parts are all placed: as many drawings as steps, each with lines, and how to read them is told."""
    tables = [b for b in flat(sheets["assembly"].cards[0].blocks) if isinstance(b, Rows) and b.head[1] == "step"]
    drawings = [drawing for table in tables for drawing in table.drawings]
    assert len(drawings) == sum(len(table.rows) for table in tables)
    assert all(drawing is not None and drawing.shapes for drawing in drawings)
    assert "Dark: what the step adds, or the parts it works on." in said(sheets["assembly"])

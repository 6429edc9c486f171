"""The record as a paper: an empty form has room to write, and names each test."""

from __future__ import annotations

from planner.output import Sheet
from planner.output.paper_files.sheet import Rows
from planner.plan import Plan
from tests.output.said import flat, said


def test_an_empty_form_has_rows_to_write_in(plan: Plan, sheets: dict[str, Sheet]) -> None:
    """Tests, lots and measures are as high as handwriting; results are empty."""
    tables = [block for block in flat(sheets["record"].cards[0].blocks) if isinstance(block, Rows) and block.written]

    assert [table.head[0] for table in tables] == ["test", "material", "measure"]
    assert all(row[1:] == ("", "", "") for row in tables[0].rows)
    assert plan.job.overrides[0].reason in said(sheets["record"])

"""The assembly paper: each step numbered once, with a check and a box."""

from __future__ import annotations

from planner.output import Sheet, order_of
from planner.output.paper_files.sheet import BOX, Rows
from planner.plan import Plan
from tests.output.said import flat, said


def test_steps_are_numbered_through_all_groups(plan: Plan, sheets: dict[str, Sheet]) -> None:
    """From 1 to the last step, each with its check and a box to tick."""
    tables = [b for b in flat(sheets["assembly"].cards[0].blocks) if isinstance(b, Rows) and b.head[1] == "step"]
    rows = [row for table in tables for row in table.rows]

    assert [row[0] for row in rows] == [str(n) for n in range(1, sum(len(g.steps) for g in order_of(plan)) + 1)]
    assert all(row[2] and row[3] == BOX for row in rows)
    assert "If a check fails, stop." in said(sheets["assembly"])

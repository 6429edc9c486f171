"""Reach in words: every screw and post, free, blocked or not checked."""

from __future__ import annotations

from planner.output.paper_files.sheet import Heading, Rows
from planner.output.papers.assembly_sheet import assembly_sheet
from planner.plan import Plan
from tests.output.conftest import MakePlan


def test_every_screw_is_judged_where_places_are_known(plan: Plan, make_plan_of: MakePlan) -> None:
    """Every screw and post of the Heron is judged against all its parts, whose places are stated; a job without any has none."""
    blocks = assembly_sheet(plan).cards[0].blocks
    rows = {
        row[1]: row
        for block in blocks
        if isinstance(block, Rows) and "straight access" in block.head
        for row in block.rows
    }
    driven = [h.name for h in plan.job.hardware if h.kind not in ("nut", "dowel-pin")]

    assert sorted(rows) == sorted(driven)
    assert not any("not checked" in row[2] for row in rows.values())
    assert {row[3] for row in rows.values()} == {"none"}
    assert rows["pivot post"][2] == "free at its step; blocked later by cap"
    assert "free at its step; blocked later by" in rows["saddle screw"][2]
    assert "not checked against" in " ".join(cell for block in blocks if isinstance(block, Rows) for cell in block.head)
    assert not any(isinstance(b, Heading) and "Reach" in b.text for b in assembly_sheet(make_plan_of()).cards[0].blocks)

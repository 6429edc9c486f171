"""The cut list: every cord, strap and pad, and what all of them take together."""

from __future__ import annotations

from planner.output import Sheet
from planner.output.paper_files.sheet import Rows
from planner.plan import Plan
from tests.output.said import flat, said


def test_every_cut_is_listed_and_summed(plan: Plan, sheets: dict[str, Sheet]) -> None:
    """A row for each cut; webbing adds up to metres (by hand)."""
    table = next(block for block in flat(sheets["cut"].cards[0].blocks) if isinstance(block, Rows))
    webbing_m = sum((cut.length_mm or 0.0) * cut.count for cut in plan.cuts if cut.kind == "webbing") / 1000

    assert [row[0] for row in table.rows] == [cut.name for cut in plan.cuts]
    assert f"{webbing_m:.2f} m" in said(sheets["cut"])

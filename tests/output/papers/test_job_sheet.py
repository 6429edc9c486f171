"""The job sheet: what is mirrored stands apart from what is not."""

from __future__ import annotations

from planner.output import Sheet
from planner.output.paper_files.sheet import Facts
from tests.output.said import flat


def test_mirrored_and_not_mirrored_parts_are_listed_apart(sheets: dict[str, Sheet]) -> None:
    """Cuff and cover are handed and mirrored; every other part stands in the other list."""
    rows = {
        row[0]: row
        for block in flat(sheets["job-sheet"].cards[0].blocks)
        if isinstance(block, Facts)
        for row in block.rows
    }

    assert rows["mirrored"][1].startswith("cuff and cover")
    assert "deck" in rows["not mirrored"][1]
    assert "cuff" not in rows["not mirrored"][1].replace("cuff strap", "")
    assert rows["worn mass"][1].endswith("; limit 250 g")

"""Every bore that a paper names is on a sketch of its part."""

from __future__ import annotations

import re

from planner.output import Sheet
from planner.output.paper_files.sheet import Picture, Rows
from planner.plan import Plan


def test_each_name_on_the_list_is_on_a_sketch(plan: Plan, sheets: dict[str, Sheet]) -> None:
    """Part by part: the yoke's b2 and the anchor's b2 are two bores, and each has a sketch of its own part."""
    blocks = sheets["drill"].cards[0].blocks
    table = next(block for block in blocks if isinstance(block, Rows))
    sketches = [block.drawing for block in blocks if isinstance(block, Picture)]
    named = [(row[0].split(" × ")[0], name) for row in table.rows for name in re.findall(r"\bb\d+\b", row[1])]
    assert ("yoke", "b2") in named
    for part, name in named:
        mine = [one for one in sketches if one.about.startswith(f"{part}, ")]
        assert any(name in [label.text for label in one.labels] for one in mine), (part, name)
    assert {one.about.split(",")[0] for one in sketches} <= {p.part.name for p in plan.parts}

"""Sketches for papers that speak of bores by their names: every part once for each side that shows them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from planner.output.line_drawing.drill_views import drill_views, openings_of
from planner.output.paper_files.sheet import Block, Heading, Picture
from planner.output.tongue import ENGLISH, Tongue
from planner.plan import Plan

NAMED = re.compile(r"\bb\d+\b")
"""A bore's name in a feature."""
WIDE_MM = 172.0
"""A sketch is no wider: the room inside the margins of both paper sizes."""


def where_blocks(
    plan: Plan, marks: Sequence[tuple[str, str, str]], title: str, tongue: Tongue = ENGLISH
) -> list[Block]:
    """Return a sketch of every part whose bores are named; ``marks`` are part, feature, and what to write beside it."""
    texts: dict[str, dict[str, str]] = {}
    for part, feature, text in marks:
        for name in NAMED.findall(feature):
            texts.setdefault(part, {})[name] = text
    found: list[Block] = []
    for planned in plan.parts:
        mine = texts.get(planned.part.name, {})
        for view in drill_views(planned, openings_of(planned, mine, tongue), WIDE_MM, tongue):
            found.append(Picture(drawing=view.drawing))
    return [Heading(text=title), *found] if found else []

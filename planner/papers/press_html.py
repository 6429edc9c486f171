"""Papers as HTML: one file a paper, nothing loaded, a print style for A4 and Letter."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from planner.papers.drawing import svg
from planner.papers.glue import glued
from planner.papers.page_size import PageSize
from planner.papers.sheet import BOX, Head, Sheet
from planner.report import escaping

TEMPLATES = Path(__file__).parent / "templates"


def html(sheets: Sequence[Sheet], head: Head, size: PageSize) -> dict[str, str]:
    """Return every paper as HTML text by file name; everything that comes from a file is escaped."""
    environment = escaping(TEMPLATES)
    environment.filters["svg"] = svg
    environment.filters["glued"] = glued
    environment.filters["kind"] = lambda block: type(block).__name__
    template = environment.get_template("sheet.html.j2")
    style = (TEMPLATES / "papers.css").read_text(encoding="utf-8")
    return {
        f"{sheet.name}.html": template.render(sheet=sheet, sheets=sheets, head=head, size=size, style=style, box=BOX)
        for sheet in sheets
    }

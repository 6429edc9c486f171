"""Papers as HTML: one file a paper, nothing loaded, a print style for A4 and Letter."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from planner.output.drawing.shapes import svg
from planner.output.page.escaped import escaping
from planner.output.paper_files.lettering.web_faces import with_letters
from planner.output.paper_files.line_breaks import with_whole_units
from planner.output.paper_files.page_size import PageSize
from planner.output.paper_files.sheet import BOX, Head, Sheet
from planner.output.tongue import ENGLISH_BELOW

TEMPLATES = Path(__file__).parent / "templates"


def html(sheets: Sequence[Sheet], head: Head, size: PageSize) -> dict[str, str]:
    """Return every paper as HTML text by file name; everything that comes from a file is escaped."""
    environment = escaping(TEMPLATES)
    environment.filters["svg"] = svg
    environment.filters["with_whole_units"] = with_whole_units
    environment.filters["parted"] = lambda text: text.split(ENGLISH_BELOW)
    environment.filters["kind"] = lambda block: type(block).__name__
    template = environment.get_template("sheet.html.j2")
    style = (TEMPLATES / "papers.css").read_text(encoding="utf-8")
    texts = {
        f"{sheet.name}.html": template.render(
            sheet=sheet, sheets=sheets, head=sheet.head or head, size=size, style=style, box=BOX
        )
        for sheet in sheets
    }
    all_letters = "".join(set().union(*texts.values()))  # one face a script for the whole set
    return {name: with_letters(text, also=all_letters) for name, text in texts.items()}

"""Texts in scripts that the papers' own face lacks: shaped, in their direction, and to be copied as text."""

from __future__ import annotations

from planner.output.paper_files.lettering.drawn_run import DrawnRun
from planner.output.paper_files.lettering.lettered import lettered, write
from planner.output.paper_files.lettering.line_order import placed_line
from planner.output.paper_files.lettering.script_faces import face_of, installed
from planner.output.paper_files.lettering.set_text import SetText, rows_of, write_set

__all__ = [
    "DrawnRun",
    "SetText",
    "face_of",
    "installed",
    "lettered",
    "placed_line",
    "rows_of",
    "write",
    "write_set",
]

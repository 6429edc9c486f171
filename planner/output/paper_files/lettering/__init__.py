"""Names in scripts that the papers' own face lacks: shaped, in their direction, and to be copied as text."""

from __future__ import annotations

from planner.output.paper_files.lettering.drawn_run import DrawnRun
from planner.output.paper_files.lettering.lettered import lettered, write
from planner.output.paper_files.lettering.script_faces import face_of, installed

__all__ = ["DrawnRun", "face_of", "installed", "lettered", "write"]

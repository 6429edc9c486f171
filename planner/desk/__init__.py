"""The desk: a page on the loopback address to work at; the same rooms underneath, no second logic.

1. ``DeskFolder(path, day)`` keeps every read and write inside one folder.
2. ``desk_app(folder, token, port)`` gives the web application; the command serves it.
3. ``ChapterWork`` is what a command gives a desk to plan a chapter with.
"""

from planner.desk.desk_app import desk_app
from planner.desk.planning.chapter_planning import ChapterWork
from planner.desk.work_folder import DeskFolder

__all__ = [
    "ChapterWork",
    "DeskFolder",
    "desk_app",
]

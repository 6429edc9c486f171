"""Papers: a plan becomes what lies on the bench, and a record that is read back.

1. ``bench_papers(plan, size)`` says every paper once; ``html(sheets, ...)`` and ``pdf(sheets, ...)`` print it.
2. ``write_papers(plan, folder)`` writes ``folder/bench``; a record that somebody filled in is never overwritten.
3. ``read_record(path)`` reads a record, ``release(plan, record, today)`` says what is missing in it.
4. ``write_release(plan, bench, judged, paper)`` stamps the hand-over sheet.
"""

from planner.papers.assembly import order_of
from planner.papers.bound import bench_papers
from planner.papers.folder import RECORD, Written, write_papers, write_release
from planner.papers.page_size import SIZES, PageSize, PaperName
from planner.papers.press_html import html
from planner.papers.press_pdf import pdf
from planner.papers.record import Record, blank
from planner.papers.record_file import read_record
from planner.papers.record_form import form_text, untouched
from planner.papers.release import Release, release
from planner.papers.release_json import release_json
from planner.papers.sheet import Head, Sheet
from planner.papers.words import head_of

__all__ = [
    "RECORD",
    "SIZES",
    "Head",
    "PageSize",
    "PaperName",
    "Record",
    "Release",
    "Sheet",
    "Written",
    "bench_papers",
    "blank",
    "form_text",
    "head_of",
    "html",
    "order_of",
    "pdf",
    "read_record",
    "release",
    "release_json",
    "untouched",
    "write_papers",
    "write_release",
]

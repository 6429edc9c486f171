"""The folder ``bench/``: papers as HTML, all as one PDF, and the record's form beside them; each file whole or not."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from planner.errors import RecordError
from planner.output.bench.paper_set import bench_papers
from planner.output.paper_files.page_size import SIZES, PaperName
from planner.output.paper_files.paper_html import html
from planner.output.paper_files.paper_pdf import pdf
from planner.output.record.record import Record, blank
from planner.output.record.record_file import read_record
from planner.output.record.record_form import form_text, untouched
from planner.output.record.release import Release
from planner.output.words.paper_words import head_of
from planner.packing import list_anew
from planner.plan import Plan
from planner.whole_file import whole

RECORD = "record.toml"
PDF = "papers.pdf"


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What was written. ``kept`` is a record that somebody had filled in; ``record`` the form beside it, or itself."""

    pdf: Path
    hand_over: Path
    record: Path
    kept: Path | None

    def moved(self, old: Path, new: Path) -> Written:
        """Return the same files in a folder that has taken the place of the one they were written into."""
        pdf, hand_over, record = (new / one.relative_to(old) for one in (self.pdf, self.hand_over, self.record))
        kept = new / self.kept.relative_to(old) if self.kept is not None else None
        return Written(pdf=pdf, hand_over=hand_over, record=record, kept=kept)


def write_papers(plan: Plan, folder: Path, paper: PaperName = "a4", ids: Mapping[int, str] | None = None) -> Written:
    """Write all papers of a plan into ``folder/bench``; a record that somebody has filled in stays as it is.

    ``ids`` are those that plates have in a ledger, by number.
    """
    bench = folder / "bench"
    _press(plan, bench, paper, None, ids)
    form = blank(plan, paper)
    record, kept = _free(bench, form)
    if record != kept:
        _write(record, form_text(form).encode())
    return Written(pdf=bench / PDF, hand_over=bench / "hand-over.html", record=record, kept=kept)


def write_release(plan: Plan, bench: Path, judged: Release, paper: PaperName) -> Path:
    """Write the papers again with the release's stamp, and return the hand-over sheet's path."""
    names = _press(plan, bench, paper, judged)
    list_anew(bench.parent, (f"{bench.name}/{name}" for name in names))
    return bench / "hand-over.html"


def _press(
    plan: Plan, bench: Path, paper: PaperName, judged: Release | None, ids: Mapping[int, str] | None = None
) -> tuple[str, ...]:
    """Write HTML and PDF, and return the files' names."""
    size, head = SIZES[paper], head_of(plan)
    sheets = bench_papers(plan, size, judged, ids)
    pages = html(sheets, head, size)
    for name, text in pages.items():
        _write(bench / name, text.encode())
    _write(bench / PDF, pdf(sheets, head, size))
    return (*pages, PDF)


def _free(bench: Path, form: Record) -> tuple[Path, Path | None]:
    """Return where a form may be written, and the record that is kept; the same path twice where it serves as it is.

    That is ``record.toml`` while nobody has filled it in; else the first of ``record-2.toml``, ``record-3.toml`` …
    that is free or untouched. What cannot be read counts as filled in.
    """
    first, number = bench / RECORD, 1
    path = first
    while path.exists() and not _untouched(path):
        if _serves(path, form):
            return path, path
        number += 1
        path = bench / f"record-{number}.toml"
    return path, first if path != first else None


def _untouched(path: Path) -> bool:
    """Return whether a file is a form that nobody has filled in."""
    try:
        return untouched(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError):
        return False


def _serves(path: Path, form: Record) -> bool:
    """Return whether a record that somebody filled in asks for just what this plan asks for."""
    try:
        have = read_record(path)
    except RecordError:
        return False
    return _asks(have) == _asks(form)


def _asks(record: Record) -> tuple[object, ...]:
    """Return what a record is of and what it asks for, the paper's size and language aside."""
    return (
        replace(record.of, paper="a4", language=None),
        {one.trial for one in record.trials},
        {one.of for one in record.lots},
        {one.name for one in record.measures},
    )


def _write(path: Path, raw: bytes) -> None:
    """Write a file through a temporary file and a rename."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with whole(path) as aside:
        aside.write_bytes(raw)

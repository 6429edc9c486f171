"""The folder ``bench/``: papers as HTML, all as one PDF, and the record's form beside them; each file whole or not."""

from __future__ import annotations

import os
import tempfile
from dataclasses import dataclass
from pathlib import Path

from planner.papers.bound import bench_papers
from planner.papers.page_size import SIZES, PaperName
from planner.papers.press_html import html
from planner.papers.press_pdf import pdf
from planner.papers.record import blank
from planner.papers.record_form import form_text, untouched
from planner.papers.release import Release
from planner.papers.words import head_of
from planner.planned import Plan

RECORD = "record.toml"
PDF = "papers.pdf"


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What was written. ``kept`` is a record that somebody had filled in; the new form is then ``record``."""

    pdf: Path
    hand_over: Path
    record: Path
    kept: Path | None


def write_papers(plan: Plan, folder: Path, paper: PaperName = "a4") -> Written:
    """Write all papers of a plan into ``folder/bench``; a record that somebody has filled in stays as it is."""
    bench = folder / "bench"
    _press(plan, bench, paper, None)
    text = form_text(blank(plan, paper))
    record, kept = _free(bench, text)
    _write(record, text.encode())
    return Written(pdf=bench / PDF, hand_over=bench / "hand-over.html", record=record, kept=kept)


def write_release(plan: Plan, bench: Path, judged: Release, paper: PaperName) -> Path:
    """Write the papers again with the release's stamp, and return the hand-over sheet's path."""
    _press(plan, bench, paper, judged)
    return bench / "hand-over.html"


def _press(plan: Plan, bench: Path, paper: PaperName, judged: Release | None) -> None:
    """Write HTML and PDF."""
    size, head = SIZES[paper], head_of(plan)
    sheets = bench_papers(plan, size, judged)
    for name, text in html(sheets, head, size).items():
        _write(bench / name, text.encode())
    _write(bench / PDF, pdf(sheets, head, size))


def _free(bench: Path, text: str) -> tuple[Path, Path | None]:
    """Return where a form may be written, and the record that is kept.

    That is ``record.toml`` while nobody has filled it in; else the first of ``record-2.toml``, ``record-3.toml`` …
    that is free or untouched. What cannot be read counts as filled in.
    """
    first, number = bench / RECORD, 1
    path = first
    while path.exists() and not _blank(path, text):
        number += 1
        path = bench / f"record-{number}.toml"
    return path, first if path != first else None


def _blank(path: Path, text: str) -> bool:
    """Return whether a file is an untouched form, or just what would be written."""
    try:
        have = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return False
    return have == text or untouched(have)


def _write(path: Path, raw: bytes) -> None:
    """Write a file through a temporary file and a rename."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.NamedTemporaryFile("wb", dir=path.parent, delete=False) as file:
        file.write(raw)
    os.chmod(file.name, 0o644)  # noqa: PTH101  temporary files start private
    Path(file.name).replace(path)

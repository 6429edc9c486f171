"""A run on the canvas: outlines in ink, and the text as it was written for whoever copies it."""

from __future__ import annotations

import io

import pdfplumber
import pytest
from reportlab.pdfgen.canvas import Canvas

from planner.output.paper_files.lettering.drawn_run import DrawnRun
from planner.output.paper_files.lettering.script_faces import face_of
from planner.output.paper_files.lettering.set_run import set_run


@pytest.mark.parametrize("text", ["يد الحديقة", "ذراع 2 الأيمن", "יד לגינה", "हस्त सहायक क्षित्रि", "বাগানের", "มือสวน"])
def test_another_library_reads_the_text_back(text: str) -> None:
    """pdfplumber: letters in their order, all within the width of the run, drawn as curves at the same place."""
    face = face_of(text[0])
    assert face is not None
    run = DrawnRun(run=set_run(text, face, bold=False), size_pt=20.0)
    file = io.BytesIO()
    canvas = Canvas(file, pagesize=(300, 100), invariant=1)
    run.draw(canvas, 50.0, 40.0)
    canvas.save()
    with pdfplumber.open(file) as read:
        page = read.pages[0]
        letters, shapes = page.chars, page.curves

    assert "".join(one["text"] for one in letters) == text
    assert all(one["x0"] >= 49.0 and one["x1"] <= 51.0 + run.width for one in letters)
    left, right = min(one["x0"] for one in shapes), max(one["x1"] for one in shapes)
    assert (left, right) == (pytest.approx(50.0, abs=4.0), pytest.approx(50.0 + run.width, abs=4.0))


def test_a_glyph_stands_in_the_file_once_however_often_it_is_met() -> None:
    """Fifty times the same run is heavier than one by its places alone (6 kB), not by its outlines (226 kB)."""
    face = face_of("ي")
    assert face is not None
    run = DrawnRun(run=set_run("يد الحديقة", face, bold=False), size_pt=9.0)
    weights = []
    for times in (1, 50):
        file = io.BytesIO()
        canvas = Canvas(file, pagesize=(300, 1000), invariant=1)
        for row in range(times):
            run.draw(canvas, 50.0, 10.0 + 19.37 * row)
        canvas.save()
        weights.append(len(file.getvalue()))

    glyphs = {one.glyph for one in run.run.glyphs}
    assert file.getvalue().count(b"/Subtype /Form") <= len(glyphs)
    assert weights[1] - weights[0] < 10_000

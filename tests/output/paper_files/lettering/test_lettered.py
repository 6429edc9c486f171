"""A paragraph in several scripts: its lines break, nothing stands beyond its column, and each word can be read back."""

from __future__ import annotations

import io
from typing import Any

import pdfplumber
import pytest
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Paragraph

from planner.output.paper_files.lettering import DrawnRun, lettered, write
from planner.output.paper_files.type_face import REGULAR, letters

NAMES = (
    "يد الحديقة",
    "ذراع 2 الأيمن",
    "יד לגינה",
    "हस्त सहायक",
    "বাগানের হাত",
    "மோட்டக் கை",
    "మోట చేయి",
    "มือสวนที่ช่วยหยิบ",
    "ដៃសួន",
)


class _Canvas(Canvas):  # type: ignore[misc]  # the library ships no types
    """A canvas that draws runs, as that of the papers does."""

    def drawImage(self, image: DrawnRun, x: float, y: float, *_: object, **__: object) -> None:  # noqa: N802
        """Draw a run."""
        image.draw(self, x, y)


def _style() -> ParagraphStyle:
    """Return a style in the papers' face."""
    letters()
    return ParagraphStyle("test", fontName=REGULAR, fontSize=9.0, leading=12.0)


def _chars(text: str, wide: float) -> list[Any]:
    """Return the letters of a paragraph drawn in a column."""
    file = io.BytesIO()
    canvas = _Canvas(file, pagesize=(500, 800), invariant=1)
    made = lettered(text, _style())
    _, high = made.wrap(wide, 800)
    made.drawOn(canvas, 100, 780 - high)
    canvas.save()
    with pdfplumber.open(file) as read:
        return list(read.pages[0].chars)


@pytest.mark.parametrize("wide", [25.0, 60.0, 200.0])
def test_no_line_leaves_its_column_and_no_letter_is_lost(wide: float) -> None:
    """All names in one text, in a narrow, a middling and a wide column."""
    text = " ".join(NAMES)
    chars = _chars(text, wide)

    assert sorted("".join(one["text"] for one in chars).replace("\u00a0", "").replace(" ", "")) == sorted(
        text.replace(" ", "")
    )
    assert max(one["x1"] for one in chars) <= 100.0 + wide + 1.0


def test_a_long_name_from_right_to_left_reads_from_line_to_line() -> None:
    """Three words in a column that holds one: the first stands highest."""
    words = ["ذراع", "الحديقة", "الأيمن"]
    chars = _chars(" ".join(words), 32.0)
    tops = [next(one["top"] for one in chars if one["text"] == letter) for letter in ("ذ", "ح", "ن")]

    assert tops == sorted(tops)
    assert len({round(top) for top in tops}) == 3


def test_a_text_in_the_papers_own_face_is_a_plain_paragraph() -> None:
    """Nothing changes for it, and nothing in it is markup."""
    made = lettered("a < b & <b>c</b>", _style())

    assert type(made) is Paragraph
    assert made.getPlainText() == "a < b & <b>c</b>"


def test_one_line_is_written_from_its_left_end_or_about_its_middle() -> None:
    """Two texts at one point: the second is centred."""
    file = io.BytesIO()
    letters()
    canvas = Canvas(file, pagesize=(300, 100), invariant=1)
    write(canvas, (150.0, 60.0), "arm हाथ", REGULAR, 12.0)
    write(canvas, (150.0, 20.0), "arm हाथ", REGULAR, 12.0, middle=True)
    canvas.save()
    with pdfplumber.open(file) as read:
        chars = read.pages[0].chars
    upper = [one for one in chars if one["top"] < 50]
    lower = [one for one in chars if one["top"] > 50]

    assert "".join(one["text"] for one in upper) == "".join(one["text"] for one in lower) == "arm हाथ"
    assert min(one["x0"] for one in upper) == pytest.approx(150.0, abs=0.01)
    middle = (min(one["x0"] for one in lower) + max(one["x1"] for one in lower)) / 2
    assert middle == pytest.approx(150.0, abs=1.0)

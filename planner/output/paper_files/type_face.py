"""The face of the printed papers: Fira Sans, embedded, so that every machine prints the same."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

REGULAR, BOLD = "Fitwright", "Fitwright-Bold"
FILES = {REGULAR: "FiraSans-Regular.ttf", BOLD: "FiraSans-Bold.ttf"}
UNKNOWN = "?"
"""Stands for a letter that the face lacks where no name was put for it: ``unset.py`` puts one everywhere."""


@cache
def letters() -> frozenset[int]:
    """Register both weights with the PDF library, and return the letters that both have, as code points."""
    have: frozenset[int] | None = None
    for name, file in FILES.items():
        font = TTFont(name, str(files("fontpkg_fira_sans") / "files" / file))
        pdfmetrics.registerFont(font)
        mine = frozenset(font.face.charToGlyph)
        have = mine if have is None else have & mine
    pdfmetrics.registerFontFamily(REGULAR, normal=REGULAR, bold=BOLD, italic=REGULAR, boldItalic=BOLD)
    assert have is not None
    return have


def shown(text: str) -> str:
    """Return the text with every letter that the face lacks as a question mark.

    >>> shown("Łódź, Ωmega, Жук: 5 × 3 mm")
    'Łódź, Ωmega, Жук: 5 × 3 mm'
    >>> shown("漢字")
    '??'
    """
    have = letters()
    return "".join(letter if ord(letter) in have else UNKNOWN for letter in text)

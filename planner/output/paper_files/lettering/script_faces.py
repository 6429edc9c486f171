"""Faces of further scripts: which file holds a letter that the papers' own face lacks. Loaded when one is met.

All are under the SIL Open Font License 1.1. Chinese, Japanese and Korean are large and come with ``fitwright[cjk]``.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from importlib.util import find_spec

import uharfbuzz as hb
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.cidfonts import UnicodeCIDFont
from reportlab.pdfbase.ttfonts import TTFont

RIGHT_TO_LEFT = ("R", "AL")
"""Classes of letters that run from right to left (Unicode Standard Annex 9, table 4)."""
FILES = {
    "Arabic": ("fontpkg_noto_sans_arabic", "files/NotoSansArabic[wdth,wght].ttf", ""),
    "Hebrew": ("fontpkg_heebo", "files/Heebo[wght].ttf", ""),
    "Devanagari": ("fontpkg_noto_sans_devanagari", "files/NotoSansDevanagari[wdth,wght].ttf", ""),
    "Bengali": ("fontpkg_hind_siliguri", "files/HindSiliguri-Regular.ttf", ""),
    "Tamil": ("fontpkg_noto_sans_tamil", "files/NotoSansTamil[wdth,wght].ttf", ""),
    "Telugu": ("fontpkg_noto_sans_telugu", "files/NotoSansTelugu[wdth,wght].ttf", ""),
    "Thai": ("fontpkg_noto_sans_thai", "files/NotoSansThai[wdth,wght].ttf", ""),
    "Khmer": ("fontpkg_noto_sans_khmer", "files/NotoSansKhmer[wdth,wght].ttf", ""),
    "Chinese and Japanese": ("pylopdf_fonts_zh_cn", "NotoSansSC-Regular.otf", "STSong-Light"),
    "Korean": ("pylopdf_fonts_ko", "NotoSansKR-Regular.otf", "HYSMyeongJo-Medium"),
}
"""By script: the package and its file; where that is CFF, the PDF library's own face whose codes stand for the text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ScriptFace:
    """A face: its outlines, the letters that it has as code points, and the PDF library's name for its codes."""

    script: str
    outlines: hb.Face = field(compare=False)
    letters: frozenset[int] = field(compare=False, repr=False)
    coded_as: str

    def font(self, *, bold: bool) -> hb.Font:
        """Return the font in one of two weights, in its own units; a face of one weight gives that."""
        font = hb.Font(self.outlines)
        font.set_variations({"wght": 700.0 if bold else 400.0})
        return font


@cache
def face_of(letter: str) -> ScriptFace | None:
    """Return the face that has a letter; None where none is installed that does.

    >>> [face_of(letter).script for letter in "يשक"]
    ['Arabic', 'Hebrew', 'Devanagari']
    >>> face_of("🔧")
    """
    return next((face for face in map(_face, FILES) if face is not None and ord(letter) in face.letters), None)


def runs_left(letter: str) -> bool:
    """Return whether a letter belongs to a script that runs from right to left.

    >>> runs_left("ي"), runs_left("a")
    (True, False)
    """
    return unicodedata.bidirectional(letter) in RIGHT_TO_LEFT


def installed() -> tuple[str, ...]:
    """Return the scripts whose faces are there, as they stand in ``FILES``."""
    return tuple(script for script, (package, _, _) in FILES.items() if find_spec(package) is not None)


@cache
def _face(script: str) -> ScriptFace | None:
    """Return the face of a script, registered with the PDF library; None where its package is not installed."""
    if script not in installed():
        return None
    package, file, coded_as = FILES[script]
    path = files(package) / file
    outlines = hb.Face(path.read_bytes())
    name = coded_as or f"Fitwright-{script}"
    pdfmetrics.registerFont(UnicodeCIDFont(coded_as) if coded_as else TTFont(name, str(path)))
    return ScriptFace(script=script, outlines=outlines, letters=frozenset(outlines.unicodes), coded_as=name)

"""Faces that a page carries inside it: of every script that a reader's machine may lack, the letters that it shows.

The papers as PDF have their own faces; the same ones stand in a page as WOFF (W3C, WOFF File Format 1.0), cut down
to its letters.
"""

from __future__ import annotations

import base64
import io
import unicodedata
from collections import defaultdict
from functools import cache
from importlib.resources import files

from planner.output.paper_files.lettering.script_faces import FILES, face_of
from planner.output.paper_files.lettering.script_runs import JOINERS

FAMILY = "Fitwright Letters"
"""The name under which style sheets ask for it, before any face of the machine: it has no letter that those share."""
SIGNS = range(0x1E00, 0x2E80)
"""Further Latin and Greek, punctuation, arrows, signs (Unicode Standard, code charts): any machine's face has them."""
FIRST = 0x0590
"""Before it stand Latin, Greek, Cyrillic and Armenian (Unicode Standard, code charts)."""


def with_letters(html: str, *, also: str = "") -> str:
    """Return a page with a style that carries the faces for its letters and those of ``also``.

    A page that needs none stays as it was.

    >>> with_letters("<head></head><p>arm, ✓ → Ω</p>")
    '<head></head><p>arm, ✓ → Ω</p>'
    """
    rules = _rules("".join(sorted({*html, *also})))
    return html.replace("</head>", f"<style>{rules}</style></head>", 1) if rules else html


@cache
def _rules(letters: str) -> str:
    """Return a rule for each script among the letters, as they stand in ``FILES``."""
    by_script: dict[str, set[str]] = defaultdict(set)
    for letter in letters:
        code = ord(letter)
        if code >= FIRST and code not in SIGNS and unicodedata.category(letter)[0] not in "CZ":
            face = face_of(letter)
            if face is not None:
                by_script[face.script].add(letter)
    joiners = {one for one in JOINERS if one in letters}
    return "".join(_rule(script, frozenset(by_script[script] | joiners)) for script in FILES if script in by_script)


def _rule(script: str, letters: frozenset[str]) -> str:
    """Return the rule of one script: its face as data, for these letters alone."""
    face = base64.b64encode(_cut_down(script, letters)).decode("ascii")
    span = ",".join(f"U+{ord(letter):04X}" for letter in sorted(letters))
    return (
        f'@font-face{{font-family:"{FAMILY}";font-weight:400 700;src:url(data:font/woff;base64,{face}) format("woff");'
        f"unicode-range:{span}}}"
    )


@cache
def _cut_down(script: str, letters: frozenset[str]) -> bytes:
    """Return the face of a script with these letters and all their forms, its weights kept and its width fixed."""
    from fontTools.subset import Options, Subsetter  # noqa: PLC0415  a quarter of a second, for those who need it
    from fontTools.ttLib import TTFont  # noqa: PLC0415
    from fontTools.varLib import instancer  # noqa: PLC0415

    package, file, _ = FILES[script]
    font = TTFont(str(files(package) / file), recalcTimestamp=False)
    options = Options(layout_features=["*"], hinting=False, name_IDs=[], notdef_outline=True)
    cutter = Subsetter(options)
    cutter.populate(unicodes=[ord(letter) for letter in letters])
    cutter.subset(font)
    if "fvar" in font and any(axis.axisTag == "wdth" for axis in font["fvar"].axes):
        font = instancer.instantiateVariableFont(font, {"wdth": 100.0})
    font.flavor = "woff"
    raw = io.BytesIO()
    font.save(raw)
    return raw.getvalue()

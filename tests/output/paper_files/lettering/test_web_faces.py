"""The faces inside a page: a browser sets letters of other scripts with them, in the forms that the whole face gives."""

from __future__ import annotations

import base64
import io
import re
from pathlib import Path
from typing import Any

import uharfbuzz as hb
from fontTools.ttLib import TTFont

from planner.output.paper_files.lettering.script_faces import face_of
from planner.output.paper_files.lettering.web_faces import with_letters

HINDI, ARABIC = "क्षेत्र पट्टिका", "لا القاعدة"
"""With conjuncts, a vowel sign before its letter, a ligature and joined letters."""
FACE = re.compile(r"base64,([^)]+)\)")


def _advances(face: hb.Face, text: str) -> list[tuple[int, int]]:
    """Return the cluster and the advance of each glyph that HarfBuzz sets for a text."""
    line = hb.Buffer()
    line.add_str(text)
    line.guess_segment_properties()
    hb.shape(hb.Font(face), line)
    return [(info.cluster, at.x_advance) for info, at in zip(line.glyph_infos, line.glyph_positions, strict=True)]


def test_a_face_that_is_cut_down_sets_words_as_the_whole_one_does() -> None:
    """HarfBuzz shapes a word of each script alike with both, and the page grows by less than 20 kB a script."""
    for text in (HINDI.split(maxsplit=1)[0], ARABIC.split(maxsplit=1)[0]):
        html = with_letters(f"<head></head><p>{text}</p>")
        found = FACE.search(html)
        assert found is not None
        font, raw = TTFont(io.BytesIO(base64.b64decode(found[1]))), io.BytesIO()
        font.flavor = None
        font.save(raw)
        whole = face_of(text[0])
        assert whole is not None
        assert _advances(hb.Face(raw.getvalue()), text) == _advances(whole.outlines, text)
        assert len(html) < 20_000


def test_a_browser_sets_hindi_and_arabic_with_the_pages_own_faces(chromium: Any, tmp_path: Path) -> None:
    """Both scripts by the faces inside, whatever the machine has; Latin beside them by the machine's own."""
    file = tmp_path / "letters.html"
    style = "<style>p{font-family:'Fitwright Letters',sans-serif}</style>"
    text = f"<head>{style}</head><p id='a'>{HINDI}</p><p id='b'>{ARABIC}</p><p id='c'>jaw 2 × 5</p>"
    file.write_text(with_letters(f"<!doctype html><html><meta charset=utf-8>{text}</html>"), encoding="utf-8")
    tab = chromium.new_page()
    tab.goto(file.as_uri())
    tab.evaluate("document.fonts.ready.then(() => 0)")
    asked = tab.context.new_cdp_session(tab)
    asked.send("DOM.enable")
    asked.send("CSS.enable")
    top = asked.send("DOM.getDocument")["root"]["nodeId"]
    own = {}
    for name in "abc":
        node = asked.send("DOM.querySelector", {"nodeId": top, "selector": f"#{name}"})["nodeId"]
        used = asked.send("CSS.getPlatformFontsForNode", {"nodeId": node})["fonts"]
        own[name] = {one["isCustomFont"] for one in used if one["glyphCount"] > 2}
    tab.close()

    assert own == {"a": {True}, "b": {True}, "c": {False}}

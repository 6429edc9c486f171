"""The HTML papers in a real browser: for readers and keyboards, in grey, and printed true to size with their big letter."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from planner.output import SIZES, PaperName, Sheet, bench_papers, head_of, html, pdf
from planner.output.paper_files.paper_html import TEMPLATES
from planner.output.paper_files.sheet import Heading, Lines
from planner.output.paper_files.tiles import SQUARE_MM, tiles_of
from planner.plan import Plan
from tests.output.conftest import BARE, MakePlan
from tests.output.page.compared import LAYOUT
from tests.output.pages import boxes_of, pages_of, sized
from tests.output.paper_files.test_tiles import PAD, RECTANGLE, check_marks, marks_of
from tests.shapes import DATA

AXE = DATA / "axe" / "axe.min.js"


@pytest.fixture(name="tab", scope="module")
def _tab(chromium: Any) -> Iterator[Any]:
    """Yield one tab for all papers: a paper has no state."""
    context = chromium.new_context(viewport={"width": 820, "height": 1100})
    yield context.new_page()
    context.close()


def _open(tab: Any, folder: Path, text: str) -> None:
    """Open a paper."""
    (folder / "paper.html").write_text(text, encoding="utf-8")
    tab.set_viewport_size({"width": 820, "height": 1100})
    tab.goto((folder / "paper.html").as_uri())


def _printed(tab: Any, folder: Path, text: str) -> bytes:
    """Return a paper as Chromium prints it, at 100 %, on the paper that it asks for."""
    _open(tab, folder, text)
    raw: bytes = tab.pdf(prefer_css_page_size=True, print_background=True)
    return raw


def test_axe_finds_nothing_and_no_colour(paper_texts: dict[str, str], tab: Any, tmp_path: Path) -> None:
    """No finding of axe-core (4.x) on any paper, by all its rules on a desk and by those of layout on a phone; nothing wider.

    Every pixel of every paper is a grey: its three channels differ by 6 of 255 at most.
    """
    for name, text in paper_texts.items():
        _open(tab, tmp_path, text)
        pixels = np.asarray(Image.open(io.BytesIO(tab.screenshot(full_page=True))).convert("RGB"))
        assert int(np.ptp(pixels, axis=2).max()) <= 6, name
        tab.add_script_tag(content=AXE.read_text(encoding="utf-8"))
        for width, only in ((820, {}), (390, {"runOnly": LAYOUT})):
            tab.set_viewport_size({"width": width, "height": 1100})
            assert tab.evaluate("document.documentElement.scrollWidth") <= width, name
            found = tab.evaluate(
                "only => axe.run(document, {resultTypes: ['violations'], ...only})",
                only,
            )["violations"]
            assert [(f["id"], [n["html"][:120] for n in f["nodes"][:3]]) for f in found] == [], (name, width)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_each_printed_page_has_the_big_letter(plan: Plan, tab: Any, tmp_path: Path, paper: PaperName) -> None:
    """Cards that run over a page carry head and letter onto the next; no heading and no line to sign is cut off."""
    sheets = bench_papers(plan, SIZES[paper])
    for sheet, (name, text) in zip(sheets, html(sheets, head_of(plan), SIZES[paper]).items(), strict=True):
        raw = _printed(tab, tmp_path, text)
        seen = []
        for page in pages_of(raw, inside=True):
            left, top, right, _ = page.reach_mm
            seen.append(page.text.replace("\xa0", " "))
            assert "left side" in seen[-1], name
            assert any("L" in letter and size > 25 for letter, size in page.letters), name
            assert min(left, top, page.width_mm - right) >= 9.0, name
        whole = " ".join(" ".join(seen).split())
        for block in [block for card in sheet.cards for block in card.blocks]:
            told = block.labels if isinstance(block, Lines) else [block.text] if isinstance(block, Heading) else []
            assert [one for one in told if one not in whole] == [], name


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_printed_templates_measure_true(plan: Plan, tab: Any, tmp_path: Path, paper: PaperName) -> None:
    """Control square 50 mm, and the Heron's outline 1.065 times 130.807 x 122.226 mm, within 0.2 mm."""
    sheets = [sheet for sheet in bench_papers(plan, SIZES[paper]) if sheet.name == "padding"]
    (boxes,) = boxes_of(_printed(tab, tmp_path, html(sheets, head_of(plan), SIZES[paper])["padding.html"]))

    assert sized(boxes, SQUARE_MM)
    assert any((b[2] - b[0], b[3] - b[1]) == pytest.approx((1.065 * 130.807, 1.065 * 122.226), abs=0.2) for b in boxes)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_printed_tiles_meet_on_their_marks(make_plan_of: MakePlan, tab: Any, tmp_path: Path, paper: PaperName) -> None:
    """A tile takes one page in Chromium's print, too, and its diamonds lie on its neighbours', within 0.2 mm."""
    (tmp_path / "pad.svg").write_text(RECTANGLE, encoding="utf-8")
    plan = make_plan_of(PAD)
    sheets: list[Sheet] = [sheet for sheet in bench_papers(plan, SIZES[paper]) if sheet.name == "padding"]
    tiles = tiles_of(480.0, 310.0, SIZES[paper])
    raw = _printed(tab, tmp_path, html(sheets, head_of(plan), SIZES[paper])["padding.html"])

    assert len(pages_of(raw)) == len(tiles)
    check_marks(marks_of(raw, tiles), tiles)


def test_html_loads_nothing_and_escapes_all(make_plan_of: MakePlan) -> None:
    """A hostile name stays a name in HTML and PDF, and no file asks for another."""
    plan = make_plan_of(text=BARE.replace('name = "x"', 'name = "<script>alert(1)</script>"'))
    sheets, head = bench_papers(plan, SIZES["letter"]), head_of(plan)
    for text in html(sheets, head, SIZES["letter"]).values():
        assert "<script>" not in text
        assert not re.search(r'(src|href)="(https?:)?//', text)
        assert "url(" not in text
        assert "size:Letter" in text
    assert "<script>alert(1)</script>" in pages_of(pdf(sheets, head, SIZES["letter"]))[0].text


def test_papers_are_ink_and_grey() -> None:
    """No colour carries meaning: every colour of the style is a grey."""
    style = (TEMPLATES / "papers.css").read_text(encoding="utf-8")
    for code in re.findall(r"#([0-9a-fA-F]{3,6})\b", style):
        full = code if len(code) == 6 else "".join(2 * digit for digit in code)
        levels = [int(full[k : k + 2], 16) for k in (0, 2, 4)]
        assert max(levels) - min(levels) <= 5, code

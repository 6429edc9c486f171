"""Names that the PDF's face cannot set: told apart by numbers, and whole in the HTML papers."""

from __future__ import annotations

import re

import pytest

from planner.output import SIZES, bench_papers, head_of, html, pdf
from planner.output.paper_files import missing_glyphs
from planner.output.paper_files.missing_glyphs import in_words
from planner.output.paper_files.sheet import Card, Head, Sheet, Words
from tests.output.conftest import BARE, MakePlan
from tests.output.pages import pages_of

HEAD = Head(job="reacher", recipient="R-12", size="100 %", letter="", side="left", maker="Millbrook Tool Library")


def test_names_of_any_length_and_script_are_printed(make_plan_of: MakePlan) -> None:
    """Three thousand letters are cut in the PDF and whole in the HTML; a name that cannot be set is put in words."""
    plan = make_plan_of(text=BARE.replace('name = "a"', f'name = "{"x" * 3000}"').replace('"x"\n', '"ხელი"\n'))
    sheets, head = bench_papers(plan, SIZES["a4"]), head_of(plan)
    pages = pages_of(pdf(sheets, head, SIZES["a4"]))

    assert "x" * 3000 in html(sheets, head, SIZES["a4"])["finishing.html"]
    firsts = [pages_of(pdf((sheet,), head, SIZES["a4"]))[0].text for sheet in sheets]
    assert all("(name 1) is in Georgian letters" in text for text in firsts if "(name 1)" in text)
    assert "Read them in job-sheet.html beside this PDF" in " ".join(pages[0].text.split())
    assert "ხელი" in html(sheets, head, SIZES["a4"])["finishing.html"]


def test_two_names_that_cannot_be_set_stay_apart(make_plan_of: MakePlan) -> None:
    """Two parts in Georgian, one in Amharic, one with a mark that nobody sees: three numbers, no question mark."""
    names = ("ხელი", "თითი", "እጅ ረጅም", "plain\u200e")
    text = BARE.replace('name = "a"', 'name = "a-0"')
    plan = make_plan_of(text=text + "".join(f'[[part]]\nname = "{n}"\nmesh = "a.stl"\nduty = "cover"\n' for n in names))
    sheets, head = bench_papers(plan, SIZES["a4"]), head_of(plan)
    pages = pages_of(pdf(sheets, head, SIZES["a4"]))
    finishing = next(page.text for page in pages if "After printing" in page.text)

    assert {f"(name {n})" for n in (1, 2, 3)} <= set(re.findall(r"\(name \d\)", finishing))
    assert re.search(r"\(name \d\) is in Ethiopic letters", finishing)
    assert "(name 4)" not in "".join(page.text for page in pages)
    assert "?" not in finishing
    assert all(name in html(sheets, head, SIZES["a4"])["finishing.html"] for name in names)


def test_letters_that_come_on_demand_are_told_how_to_get(monkeypatch: pytest.MonkeyPatch) -> None:
    """Han and Hangul where their faces are not installed; Georgian has none to be had."""
    monkeypatch.setattr(missing_glyphs, "face_of", lambda _: None)
    cards = [Card(title=name, blocks=(Words(text=name),)) for name in ("漢字", "정원", "ხელი")]
    sheets, _ = in_words([Sheet(name="labels", title="Labels", cards=tuple(cards))], HEAD)
    notes = [card.blocks[0] for card in sheets[0].cards]

    assert ["fitwright[cjk]" in note.text for note in notes if isinstance(note, Words)] == [True, True, False]

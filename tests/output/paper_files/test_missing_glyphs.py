"""Names that the PDF's face cannot set: told apart by numbers, and whole in the HTML papers."""

from __future__ import annotations

import re

from planner.output import SIZES, bench_papers, head_of, html, pdf
from tests.output.conftest import BARE, MakePlan
from tests.output.pages import pages_of


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

"""All papers of a plan: each is there in both forms, says what it must, and promises nothing."""

from __future__ import annotations

import re

from planner.output import SIZES, Sheet, bench_papers, head_of, html, pdf
from planner.output.bench.paper_set import papers_in
from planner.output.words.block_texts import texts_of
from planner.plan import Plan
from tests.output.conftest import MakePlan
from tests.output.pages import pages_of
from tests.output.pseudo import PSEUDO, untranslated
from tests.output.said import said

NAMES = [
    "job-sheet",
    "plate-cards",
    "labels",
    "finishing",
    "drill",
    "cut",
    "padding",
    "bags",
    "assembly",
    "test",
    "record",
    "hand-over",
]


def test_every_paper_is_there_in_both_forms(plan: Plan) -> None:
    """Twelve papers: a file each in HTML, a title each in the PDF."""
    sheets = bench_papers(plan, SIZES["a4"])
    text = " ".join(page.text for page in pages_of(pdf(sheets, head_of(plan), SIZES["a4"])))

    assert [sheet.name for sheet in sheets] == NAMES
    assert list(html(sheets, head_of(plan), SIZES["a4"])) == [f"{name}.html" for name in NAMES]
    assert all(card.title in text for sheet in sheets for card in sheet.cards)


def test_nothing_to_do_is_said_without_an_empty_page(make_plan_of: MakePlan) -> None:
    """A lone plate without side, hardware, cord or padding: the job sheet names the papers that would be empty, no page is."""
    plan = make_plan_of()
    sheets = {sheet.name: sheet for sheet in bench_papers(plan, SIZES["a4"])}

    assert "Nothing needs drilling" in said(sheets["drill"])
    assert not {"cut", "padding"} & set(sheets)
    assert "nothing to do: cut list and padding templates" in said(sheets["job-sheet"])
    assert "names no joint" in said(sheets["assembly"])
    assert head_of(plan).letter == ""
    pages = pages_of(pdf(tuple(sheets.values()), head_of(plan), SIZES["a4"]))
    assert min(len(page.text) for page in pages) > 250  # more than its head and its foot


def test_no_paper_promises_what_it_cannot(sheets: dict[str, Sheet]) -> None:
    """The device is called neither safe nor certified, and the hand-over sheet defers."""
    for sheet in sheets.values():
        assert not re.search(r"\b(safe|safely|certified)\b", said(sheet), re.IGNORECASE)
    assert "prosthetist or therapist" in said(sheets["hand-over"])


def test_no_line_of_a_translated_paper_goes_untranslated(plan: Plan) -> None:
    """A language that puts every message in brackets leaves nothing outside but names, numbers and English by intent.

    A paper is translated whole or not at all; the record alone, which the program reads again, is not.
    """
    sheets = papers_in(PSEUDO, plan, SIZES["a4"])

    assert [sheet.name for sheet in sheets if sheet.head is None] == ["record"]
    for sheet in sheets:
        assert sheet.head is None or untranslated(sheet, plan) == []
        assert sheet.head is not None or "«" not in said(sheet)


UNITS = r"(?:mm/s|MPa|mm[²³]?|cm²|°C|°|%|kg|[gNhsm]|min|EUR|M\d)(?![\w²³])"


NUMBER = r"\d+(?:[.,]\d+)?"


BARE_NUMBERS = (
    r"1\.5 d \+ 1",
    rf"{NUMBER}(?:(?: to \+?| × ){NUMBER})*\s?(?:{UNITS})",  # 5 mm, 2.94 to 3.10 mm, 10 × 20 × 3 mm
    rf"× {NUMBER}|{NUMBER} × the",  # so many of them, or a factor
    r"\d+ \+ \d+ spare|M\d+(?:\.\d)?(?: locking)?|\d+ mm × \d+|#\d+ × \d+",  # pieces with their spares, stock sizes
    r"IEC 60601-1, 15\.3\.4\.1",  # a standard and its clause
    r"\d{4}-\d\d-\d\d|\w{3} \d+ \w{3} \d\d:\d\d",  # days and hours of a calendar
    r"[\w./-]*[A-Za-z#][\w./-]*\d[\w./-]*|[0-9a-f]{16}",  # names: R-07, M3, plate-01.3mf, SHA-256
    rf"\d+,? (?:of \d+ )?{'(?:kinds|features|times|contours|weeks?|months?|hours?|digits|pieces?|places|steps)'}",
    r"(?:[Pp]late|[Bb]ag|place|day|No\.|no\.|ISO|sheet|first) \d+(?:-\d)?",
)


def test_every_number_has_its_unit(plan: Plan) -> None:
    """Lengths, masses, times and shares carry their unit; what is left without one is a count, a day, or a name."""
    bare = []
    for sheet in bench_papers(plan, SIZES["a4"]):
        for card in sheet.cards:
            for text in texts_of(card.blocks):
                rest = text
                for known in BARE_NUMBERS:
                    rest = re.sub(known, "", rest)
                if re.search(r"\d", rest) and not re.fullmatch(r"\d+", text):
                    bare.append((sheet.name, text))

    assert bare == []

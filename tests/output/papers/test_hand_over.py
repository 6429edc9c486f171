"""The hand-over sheet: it names what is there, and nothing else."""

from __future__ import annotations

import io
import unicodedata
from dataclasses import replace

import pdfplumber
import pytest

from planner.job import LANGUAGES, Language
from planner.output import SIZES, PaperName, Sheet, bench_papers, head_of, pdf
from planner.output.paper_files.lettering import placed_line
from planner.output.paper_files.sheet import Picture
from planner.output.paper_files.type_face import REGULAR
from planner.output.papers.hand_over import hand_over
from planner.output.papers.labels import COLUMNS_N, labels
from planner.output.tongue import ENGLISH_BELOW, tongue_of
from planner.output.words.block_texts import texts_of
from planner.plan import Plan
from tests.output.conftest import MakePlan
from tests.output.pages import pages_of
from tests.output.pseudo import PSEUDO
from tests.output.said import said


def test_the_hand_over_sheet_names_what_is_there(sheets: dict[str, Sheet], make_plan_of: MakePlan) -> None:
    """The Heron has metal, cord, straps and padding; a lone plate has nothing of that, and its sheet promises none."""
    bare = {sheet.name: sheet for sheet in bench_papers(make_plan_of(), SIZES["a4"])}

    assert "metal screws, nuts or pins, cord, straps and padding" in said(sheets["hand-over"])
    assert "and nothing else" in said(bare["hand-over"])


LANGUAGES_N = 7


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_third_longer_words_are_never_clipped(plan: Plan, paper: PaperName) -> None:
    """pdfplumber: each letter lies inside the margins of its page, nothing ends in an ellipsis, and labels stay in their box."""
    size = SIZES[paper]
    sheets = [hand_over(plan, None, PSEUDO), labels(plan, size, PSEUDO)]
    pages = pages_of(pdf(sheets, head_of(plan), size))

    for page in pages:
        left, top, right, bottom = page.reach_mm
        assert min(left, top) >= size.margin_mm - 3.0
        assert right <= size.width_mm - size.margin_mm + 0.5
        assert bottom <= size.height_mm - size.margin_mm + 3.0
        assert "…" not in page.text
    (card,) = sheets[1].cards[:1]
    drawing = next(block.drawing for block in card.blocks if isinstance(block, Picture))
    wide = size.inner_mm[0] / COLUMNS_N
    for label in drawing.labels:
        if label.anchor == "start":
            end = label.at[0] + placed_line(label.text, REGULAR, label.size_mm, leftward=False).wide_pt
            assert end <= wide * (label.at[0] // wide + 1) + 0.01, label.text


@pytest.mark.parametrize("code", ["ar", "hi"])
def test_arabic_and_hindi_are_read_back_as_they_were_written(plan: Plan, code: str) -> None:
    """pdfplumber, in the order of the page's content: whole sentences from stamp to signature, with their digits and units."""
    whole = hand_over(plan, None, tongue_of(code))
    some = whole.cards[0].blocks[:6] + whole.cards[0].blocks[-1:]  # the rest is set by the same hand, and takes seconds
    sheet = replace(whole, cards=(replace(whole.cards[0], blocks=some),))
    with pdfplumber.open(io.BytesIO(pdf([sheet], head_of(plan), SIZES["a4"]))) as file:
        read = _bare("".join(char["text"] for page in file.pages for char in page.chars))

    for text in texts_of(some):
        for part in text.split(ENGLISH_BELOW):
            assert _bare(part) in read, part
    for told in (f"{plan.worn_g:.0f}g", "106.5%"):
        assert told in read, told


@pytest.mark.parametrize("code", LANGUAGES)
def test_safety_texts_keep_their_english(plan: Plan, code: Language) -> None:
    """All that the English sheet warns of stands in each of the seven, word for word, and the paper says why."""
    english = said(hand_over(plan, None))
    sheet = hand_over(plan, None, tongue_of(code))
    texts = [part for text in texts_of(sheet.cards[0].blocks) for part in text.split(ENGLISH_BELOW)]

    assert len(LANGUAGES) == LANGUAGES_N
    for warning in WARNINGS:
        assert warning in english
        assert any(warning in text for text in texts), warning
    assert any("A machine translated this sheet" in text for text in texts) == (code != "en")


WARNINGS = (
    "This sheet allows no load",
    "Do not climb with it",
    "It is for the left side only.",
    "Heat bends it",
    "stays red 20 min after you took it off",
    "Nobody here judged how strong it is in use",
    "gone within 20 min",
    "the emergency number where you live",
)


def _bare(text: str) -> str:
    """Return a text without blanks and marks that are never seen."""
    return "".join(one for one in text if not one.isspace() and unicodedata.category(one) != "Cf")

"""How the papers lie on their pages: nothing torn off, nothing alone, numbers with their units, the bed as it is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.output import SIZES, PaperName, Sheet, bench_papers, head_of, html, pdf
from planner.output.paper_files.page_size import PageSize
from planner.output.paper_files.sheet import Block, Card, Heading, Lines, Rows, Words
from planner.output.papers.plate_cards import plate_cards
from planner.plan import Plan
from tests.output.conftest import MakePlan
from tests.output.pages import Page, pages_of

KINDS = '[job]\nname = "x"\nmaterial = "petg"\n[size]\npercent = 30.0\n'
LONG_N = 20
"""So many rows of a line or two do not fit one page."""
TAIL = "(role)"


def _pages(plan: Plan, sheets: tuple[Sheet, ...], size: PageSize) -> list[Page]:
    """Return the pages of some papers."""
    return pages_of(pdf(sheets, head_of(plan), size))


@pytest.mark.parametrize("kinds_n", [13, 30])
def test_the_lines_to_sign_hang_at_the_printer(make_plan_of: MakePlan, kinds_n: int) -> None:
    """However many kinds lie on a plate, who started it signs on its card's first page; more pieces follow in a table."""
    parts = "".join(
        f'[[part]]\nname = "number {n}, a long name"\nmesh = "a.stl"\nduty = "cover"\n' for n in range(kinds_n)
    )
    plan = make_plan_of(text=KINDS + parts)
    for size in SIZES.values():
        pages = _pages(plan, (plate_cards(plan),), size)
        for number in range(1, len(plan.plates) + 1):
            mine = [page.text for page in pages if f"Plate {number} of" in page.text]
            assert all(word in mine[0] for word in ("started by (role)", "ended, hour", "failed: height, cause"))
            assert "finished at" in mine[-1]
            assert len(mine) == 1 or kinds_n > 13
        assert sum(page.text.count("a long name") for page in pages) >= kinds_n


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_page_begins_with_what_belongs_to_the_page_before(plan: Plan, paper: PaperName) -> None:
    """Of the Heron's papers no page holds only lines to sign, and no page begins with the middle of a short table.

    A long one, such as that of the steps with their drawings or that of all tests, goes on under its own head.
    """
    size = SIZES[paper]
    for sheet in bench_papers(plan, size):
        for card in sheet.cards:
            titles = [block.text for block in card.blocks if isinstance(block, Heading)]
            tables = [block for block in card.blocks if isinstance(block, Rows)]
            titles += [" ".join(one.head) for one in tables if any(one.drawings) or len(one.rows) >= LONG_N]
            pages = _pages(plan, (replace(sheet, cards=(card,)),), size)
            for page in pages:
                told = page.text.splitlines()
                head = next(index for index, line in enumerate(told) if "left side" in line)
                assert TAIL not in told[head + 1], sheet.name
                if page is not pages[0]:
                    assert any(told[head + 1].startswith(title[:20]) for title in titles), (sheet.name, told[head + 1])


def test_a_table_that_fits_a_page_is_not_torn(plan: Plan) -> None:
    """After words that leave room for three rows, a table of eight goes to the next page with its heading and its lines."""
    table = Rows(head=("a", "b"), rows=tuple((f"row {n}", "x") for n in range(8)), shares=(1, 1))
    blocks: tuple[Block, ...] = (
        *(Words(text=f"word {n}") for n in range(50)),
        Heading(text="Together"),
        table,
        Lines(labels=("done by (role)", "date")),
    )
    pages = _pages(
        plan, (Sheet(name="x", title="x", cards=(Card(title="x", blocks=(*blocks, *blocks)),)),), SIZES["letter"]
    )

    for page in pages:
        assert page.text.count("Together") == page.text.count("row 0") == page.text.count("row 7")
        assert page.text.count("Together") == page.text.count("done by (role)")


def test_a_big_letter_stands_on_every_card(plan: Plan) -> None:
    """Each page of the PDF carries an L of 36 points, each card of the HTML one in a frame; without a side none."""
    sheets, head = bench_papers(plan, SIZES["a4"]), head_of(plan)
    pages = pages_of(pdf(sheets, head, SIZES["a4"]))

    assert all(page.letters_of(36) == "L" for page in pages)
    for sheet in sheets:
        text = html([sheet], head, SIZES["a4"])[f"{sheet.name}.html"]
        assert text.count('class="letter"') == len(sheet.cards)


def test_the_same_plan_gives_the_same_bytes(plan: Plan) -> None:
    """No clock and no chance in the PDF."""
    sheets, head = bench_papers(plan, SIZES["a4"]), head_of(plan)

    assert pdf(sheets, head, SIZES["a4"]) == pdf(sheets, head, SIZES["a4"])

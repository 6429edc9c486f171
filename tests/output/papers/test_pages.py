"""How the papers lie on their pages: nothing torn off, nothing alone, numbers with their units, the bed as it is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.output import SIZES, PaperName, bench_papers, head_of, pdf
from planner.output.drawing.plate_shapes import plate_drawing
from planner.output.drawing.shapes import Drawing
from planner.output.papers.plate_cards import plate_cards
from planner.output.press.line_breaks import NO_BREAK, glued
from planner.output.press.page_size import PageSize
from planner.output.press.sheet import Block, Card, Heading, Lines, Rows, Sheet, Words
from planner.plan import Plan
from tests.output.papers.conftest import MakePlan
from tests.output.papers.pages import Page, pages_of

KINDS = '[job]\nname = "x"\nmaterial = "petg"\n[size]\npercent = 30.0\n'
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
            assert "whole from" in mine[-1]
            assert len(mine) == 1 or kinds_n > 13
        assert sum(page.text.count("a long name") for page in pages) >= kinds_n


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_page_begins_with_what_belongs_to_the_page_before(plan: Plan, paper: PaperName) -> None:
    """Of the Heron's papers no page holds only lines to sign, and no page begins with the middle of a short table."""
    size = SIZES[paper]
    for sheet in bench_papers(plan, size):
        for card in sheet.cards:
            titles = [block.text for block in card.blocks if isinstance(block, Heading)]
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


def test_numbers_keep_their_units() -> None:
    """SI Brochure, 9th edition, 5.4.3: a space between number and unit, and no line may end there."""
    assert glued("60 s, 5 mm, 3 × 4 mm²") == "60_s, 5_mm, 3_×_4_mm²".replace("_", NO_BREAK)
    assert glued("2 most, 4 handles, 5 minutes") == "2 most, 4 handles, 5 minutes"


def _areas(drawing: Drawing, fill: float | None) -> list[float]:
    """Return the areas of the outer rings of one grey in mm² by the shoelace formula."""
    rings = [shape.rings[0] for shape in drawing.shapes if shape.fill == fill]
    return [
        abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))) / 2
        for ring in rings
    ]


def test_the_bed_on_a_plate_card_is_the_bed(plan: Plan) -> None:
    """A triangular bed is drawn as a triangle, not as its box; a zone kept clear is drawn where it is."""
    parts = {p.part.name: p for p in plan.parts}
    corners, zone = ((0.0, 0.0), (220.0, 0.0), (110.0, 220.0)), ((10.0, 2.0), (20.0, 2.0), (20.0, 12.0), (10.0, 12.0))
    bed = replace(plan.job.printer.bed, shape="polygon", outline_mm=corners, zones_mm=(zone,))
    drawing = plate_drawing(plan.plates[0], parts, bed)

    assert _areas(drawing, None)[0] == pytest.approx(220.0 * 220.0 / 2)
    assert _areas(drawing, 0.55) == [pytest.approx(100.0)]


def test_numbers_on_a_plate_can_be_read(plan: Plan) -> None:
    """No type on the drawing of a plate is smaller than 7 points where it stands on the card (45 % of the paper)."""
    wide_mm = 0.45 * SIZES["a4"].inner_mm[0] - 5.0
    parts = {p.part.name: p for p in plan.parts}
    for plate in plan.plates:
        drawing = plate_drawing(plate, parts, plan.job.printer.bed)
        for label in drawing.labels:
            assert label.size_mm * wide_mm / drawing.width_mm * 72.0 / 25.4 >= 7.0

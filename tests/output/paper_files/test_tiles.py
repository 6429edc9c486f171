"""Templates are true to size: the PDF's coordinates, read by another library, against the outline's own numbers."""

from __future__ import annotations

import itertools
import math
from pathlib import Path

import pytest

from planner.output import SIZES, PaperName, bench_papers, head_of, pdf
from planner.output.paper_files.tiles import MARK_MM, OVERLAP_MM, SQUARE_MM, STRIP_MM, Tile, name_of, seams_of, tiles_of
from planner.plan import Plan
from tests.output.conftest import MakePlan
from tests.output.pages import Page, boxes_of, pages_of, sized

PAD = '[[padding]]\npart = "a"\nthickness_mm = 3.0\noutline = "pad.svg"\n'
ASYMMETRIC = '<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}"><path d="M0 0 H{w} V{h} Z"/></svg>'

RECTANGLE = ASYMMETRIC.format(w=480, h=310).replace(" Z", " H0 Z")


def _templates(plan: Plan, paper: PaperName) -> list[Page]:
    """Return the pages with a control square."""
    sheets = bench_papers(plan, SIZES[paper])
    return [page for page in pages_of(pdf(sheets, head_of(plan), SIZES[paper])) if "control square" in page.text]


def _bounds(points: tuple[tuple[float, float], ...]) -> tuple[float, float]:
    """Return width and height of points."""
    xs, ys = zip(*points, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


def _length(points: tuple[tuple[float, float], ...]) -> float:
    """Return the length of a line."""
    return sum(math.dist(a, b) for a, b in itertools.pairwise(points))


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_heron_s_template_measures_true(plan: Plan, paper: PaperName) -> None:
    """Control square 50 x 50 mm, and the outline 1.065 times the drawing (130.807 wide), within 0.2 mm."""
    (page,) = _templates(plan, paper)
    wide, high = max(map(_bounds, page.curves))

    assert any(rect == pytest.approx((SQUARE_MM, SQUARE_MM), abs=0.2) for rect in page.rects)
    assert wide == pytest.approx(1.065 * 130.807, abs=0.2)
    assert high == pytest.approx(1.065 * 122.226, abs=0.2)


@pytest.mark.parametrize(("paper", "size"), [("a4", (210.0, 297.0)), ("letter", (215.9, 279.4))])
def test_pages_have_the_size_of_their_paper_and_keep_its_margin(
    plan: Plan, paper: PaperName, size: tuple[float, float]
) -> None:
    """A4 by ISO 216, Letter 8.5 x 11 inch; nothing is drawn within 9 mm of an edge."""
    for page in pages_of(pdf(bench_papers(plan, SIZES[paper]), head_of(plan), SIZES[paper])):
        left, top, right, bottom = page.reach_mm
        assert (page.width_mm, page.height_mm) == pytest.approx(size, abs=0.01)
        assert min(left, top, page.width_mm - right, page.height_mm - bottom) >= 9.0


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_template_larger_than_the_paper_comes_in_tiles(
    make_plan_of: MakePlan, tmp_path: Path, paper: PaperName
) -> None:
    """A piece of 400 x 300 mm: every tile has its square, and the straight edges of all tiles cover it with overlap."""
    (tmp_path / "pad.svg").write_text(ASYMMETRIC.format(w=400, h=300), encoding="utf-8")
    pages = _templates(make_plan_of(PAD), paper)
    tiles = tiles_of(400.0, 300.0, SIZES[paper])

    assert 2 < len(pages) <= len(tiles)
    drawn = sum(_length(points) for page in pages for width, points in page.strokes if abs(width - 0.3) < 0.02)
    assert drawn >= 400.0 + 300.0 + 500.0 - 1.0  # the triangle's edges, and once more where tiles overlap
    for page in pages:
        assert any(rect == pytest.approx((SQUARE_MM, SQUARE_MM), abs=0.2) for rect in page.rects)
    assert max(t.x_mm + t.width_mm for t in tiles) == pytest.approx(400.0)
    assert max(t.y_mm + t.height_mm for t in tiles) == pytest.approx(300.0)
    rows = [sorted((t.x_mm, t.x_mm + t.width_mm) for t in tiles if t.row == row) for row in {t.row for t in tiles}]
    for row in rows:
        assert all(a[1] - b[0] == pytest.approx(OVERLAP_MM) for a, b in itertools.pairwise(row))


def marks_of(raw: bytes, tiles: tuple[Tile, ...]) -> dict[str, list[tuple[float, float]]]:
    """Return the diamonds of every tile's page in the template's mm, measured from the control square of that page."""
    found: dict[str, list[tuple[float, float]]] = {}
    pages = [boxes for boxes in boxes_of(raw) if sized(boxes, SQUARE_MM)]
    for tile, boxes in zip(tiles, pages, strict=True):
        left, low, _, _ = sized(boxes, SQUARE_MM)[0]
        found[name_of(tile)] = [
            ((b[0] + b[2]) / 2 - left + tile.x_mm, (b[1] + b[3]) / 2 - low + 1.0 - STRIP_MM + tile.y_mm)
            for b in sized(boxes, 2 * MARK_MM)
        ]
    return found


def check_marks(found: dict[str, list[tuple[float, float]]], tiles: tuple[Tile, ...]) -> None:
    """Assert that every two neighbours share two diamonds at one place of the template, within 0.2 mm."""
    for tile in tiles:
        for seam in seams_of(tile, tiles):
            one, other = found[name_of(tile)], found[name_of(seam.other)]
            shared = [a for a in one if any(math.dist(a, b) <= 0.2 for b in other)]
            assert len(shared) == 2, (name_of(tile), name_of(seam.other))


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_tiles_meet_on_their_marks(make_plan_of: MakePlan, tmp_path: Path, paper: PaperName) -> None:
    """A rectangle of 480 x 310 mm in nine tiles or more: read from the PDF, diamonds of neighbours lie on each other."""
    (tmp_path / "pad.svg").write_text(RECTANGLE, encoding="utf-8")
    plan = make_plan_of(PAD)
    sheet = next(sheet for sheet in bench_papers(plan, SIZES[paper]) if sheet.name == "padding")
    tiles = tiles_of(480.0, 310.0, SIZES[paper])
    raw = pdf([sheet], head_of(plan), SIZES[paper])

    assert len(tiles) >= 9
    check_marks(marks_of(raw, tiles), tiles)
    told = [" ".join(page.text.split()) for page in pages_of(raw)]
    assert all("Tiles overlap by 12 mm" in text for text in told)
    assert "Cut this sheet along these dashes: left and lower. Lay it on" in told[tiles.index(_called(tiles, "B2"))]
    assert "Leave this one whole" in told[0]


def _called(tiles: tuple[Tile, ...], name: str) -> Tile:
    """Return the tile of a name."""
    return next(tile for tile in tiles if name_of(tile) == name)

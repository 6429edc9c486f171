"""Padding templates: true size, mirrored with their part, and none where no outline is known."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.output import SIZES, bench_papers, head_of, html, pdf
from planner.output.papers.padding import padding_templates
from planner.output.tongue import Tongue, tongue_of
from planner.plan import Plan
from tests.output.conftest import MakePlan
from tests.output.pages import pages_of
from tests.output.paper_files.test_tiles import ASYMMETRIC, PAD, _bounds, _templates
from tests.output.pseudo import PSEUDO


def test_a_mirrored_part_has_a_mirrored_template(make_plan_of: MakePlan, tmp_path: Path) -> None:
    """A right triangle with its right angle at the right comes out with it at the left."""
    (tmp_path / "pad.svg").write_text(ASYMMETRIC.format(w=80, h=60), encoding="utf-8")
    text = '[job]\nname = "x"\nmaterial = "petg"\n[size]\nside = "left"\ndrawn_for = "right"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\nhanded = {}\n'
    steep = []
    for handed in ("false", "true"):
        (page,) = _templates(make_plan_of(PAD, text.format(handed)), "a4")
        ring = next(points for points in page.curves if _bounds(points) == pytest.approx((80.0, 60.0), abs=0.2))
        middle = (min(x for x, _ in ring) + max(x for x, _ in ring)) / 2
        steep.append(sum(x > middle for x, _ in set(ring)) > sum(x < middle for x, _ in set(ring)))

    assert steep == [True, False]


def test_html_templates_are_in_millimetres(plan: Plan) -> None:
    """The SVG states its size in mm, and one unit of its own is one mm."""
    sheets = bench_papers(plan, SIZES["a4"])
    text = html(sheets, head_of(plan), SIZES["a4"])["padding.html"]

    assert 'width="141.31mm"' in text
    assert 'viewBox="0 0 141.31 ' in text


def test_padding_without_an_outline_gets_no_invented_one(make_plan_of: MakePlan) -> None:
    """Only an area is stated: the paper says so, and how to make a template; no square pretends to be one."""
    plan = make_plan_of('[[padding]]\npart = "a"\nthickness_mm = 3.0\narea_mm2 = 900.0\n')
    pages = pages_of(pdf(bench_papers(plan, SIZES["a4"]), head_of(plan), SIZES["a4"]))

    assert any("There is no template" in page.text and "9 cm²" in page.text for page in pages)
    assert not any("control square" in page.text for page in pages)


@pytest.mark.parametrize(
    ("wide", "high", "least", "tongue"), [(150, 131, 1, tongue_of("de")), (250, 250, 4, replace(PSEUDO, signed_by=""))]
)
def test_longer_words_push_no_tile_to_another_page(
    make_plan_of: MakePlan, tmp_path: Path, wide: int, high: int, least: int, tongue: Tongue
) -> None:
    """German on one tile that just fits, words a third longer on several, English below: one page a tile."""
    (tmp_path / "pad.svg").write_text(ASYMMETRIC.format(w=wide, h=high), encoding="utf-8")
    plan = make_plan_of(PAD)
    sheet = padding_templates(plan, SIZES["letter"], tongue)

    assert len(sheet.cards) >= least
    assert len(pages_of(pdf([sheet], head_of(plan), SIZES["letter"]))) == len(sheet.cards)

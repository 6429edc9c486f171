"""Tight bores, worked out by hand: what fits, what is drilled and how deep, and what remains where nothing is left."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.finding import Verdict
from planner.rules.fit.bores.bore_case import BoreCase, Stock
from planner.rules.fit.bores.bore_edge import BoreEdge
from planner.rules.fit.bores.bore_tight import BoreTight
from planner.sourced import stated
from planner.survey import Bore

BORE = Bore(
    id="b1",
    diameter_mm=3.0,
    drawn_diameter_mm=3.0,
    facets_n=48,
    depth_mm=8.0,
    axis=(0.0, 0.0, 1.0),
    centre_mm=(0.0, 0.0, 4.0),
    through=True,
    step_of=None,
    coverage_deg=360.0,
    edge_wall_mm=2.0,
)
CASE = BoreCase(
    part="a",
    feature="b1",
    hardware="screw",
    fit="sliding",
    bore=BORE,
    upright=True,
    undersize_mm=stated(0.2),
    calibrated=True,
    need_mm=3.1,
    most_mm=3.6,
    drill_mm=3.1,
    bush_mm=4.7,
    edge_limit_mm=1.35,
    drill_most_mm=13.0,
    scrape_mm=0.5,
    larger=(),
    smaller=(Stock(label="M2.5 machine-screw", diameter_mm=2.5, need_mm=2.6, most_mm=3.1, drill_mm=2.6),),
    stepped=False,
    floored=False,
    fit_words="a sliding M3",
    play_words="ISO 273 coarse for M3",
    clearance_source="here",
    play_source="ISO 273",
    edge_source="here",
)


def test_a_bore_is_drilled_where_enough_is_left() -> None:
    """3.0 prints at 2.8: drilled to 3.1 it leaves 2.0 + 1.5 - 1.55 = 1.95 mm; at 110 % it prints at 3.1 and fits."""
    tight = BoreTight(case=CASE)

    assert tight.at(1.0).verdict is Verdict.GO_WITH_WORK
    assert tight.at(1.0).remedy == "drill 2.80 to 3.10 mm; a wall of 1.95 mm is left"
    assert tight.at(1.1).verdict is Verdict.GO


def test_a_blind_bore_is_drilled_to_its_own_depth() -> None:
    """8 mm deep at 100 % is 7.2 mm at 90 %: the depth stop says so; in a stepped stack no number would be right."""
    blind = replace(CASE, bore=replace(BORE, through=False))
    found = BoreTight(case=blind).at(0.9)
    stepped = BoreTight(case=replace(blind, stepped=True)).at(0.9)

    assert found.verdict is Verdict.GO_WITH_WORK
    assert "no deeper than 7.2 mm (set a depth stop)" in found.remedy
    assert "no deeper than the bore is now (set a depth stop)" in stepped.remedy


def test_drilling_that_leaves_too_little_is_refused_with_its_number() -> None:
    """Edge 1.3: drilling leaves 1.3 + 1.5 - 1.55 = 1.25 of 1.35 mm. M2.5 goes in as it prints, 2.8 of 2.6 to 3.1 mm."""
    thin = replace(CASE, bore=replace(BORE, edge_wall_mm=1.3))
    found = BoreTight(case=thin).at(1.0)

    assert found.verdict is Verdict.NO_GO
    assert found.remedy.startswith("take a smaller one (M2.5 machine-screw goes in as it prints)")
    assert found.why.endswith("; drilling leaves a wall of 1.25 mm; 1.35 mm is needed")
    assert (
        "at a scale of 103.6 % or more, this bore by itself is wide enough" in found.remedy
    )  # (1.35 + 1.55) / 2.8 = 1.0357, where drilling leaves enough
    assert BoreTight(case=thin).at(1.036).verdict is Verdict.GO_WITH_WORK


def test_the_whole_stock_is_looked_through() -> None:
    """A bore of 2.4 prints at 2.2 with 1.0 mm beside it: M2.5 would leave 0.9 mm, M2 goes in as it prints."""
    stock = (
        Stock(label="M2.5 machine-screw", diameter_mm=2.5, need_mm=2.6, most_mm=3.1, drill_mm=2.6),
        Stock(label="M2 machine-screw", diameter_mm=2, need_mm=2.1, most_mm=2.6, drill_mm=2.1),
    )
    narrow = replace(CASE, bore=replace(BORE, diameter_mm=2.4, drawn_diameter_mm=2.4, edge_wall_mm=1.0), smaller=stock)

    assert "M2 machine-screw goes in as it prints" in BoreTight(case=narrow).at(1.0).remedy


def test_a_hundredth_is_called_what_it_is() -> None:
    """3.29 prints at 3.09 where 3.10 is needed: work, and a word that no hand drills a hundredth."""
    near = replace(CASE, bore=replace(BORE, diameter_mm=3.29, drawn_diameter_mm=3.29))
    found = BoreTight(case=near).at(1.0)

    assert found.verdict is Verdict.GO_WITH_WORK
    assert "prints at 3.09 mm" in found.why
    assert "equal within what a hand can drill and a printer repeat" in found.why
    assert found.remedy.startswith("try it first")


@pytest.mark.parametrize(("percent", "left"), [(100.0, 1.95), (110.0, 2.2)])
def test_the_wall_beside_is_judged_as_it_will_be(percent: float, left: float) -> None:
    """Drilled at 100 %, 1.95 mm are left; at 110 % nothing is drilled, and 2.0 · 1.1 = 2.2 mm stand."""
    edge = BoreEdge(
        part="a", feature="b1", bore=BORE, edge_mm=2.0, limit_mm=1.35, duty="load", case=CASE, source="here"
    )

    assert edge.at(percent / 100.0).measured == pytest.approx(left)
    assert edge.at(percent / 100.0).verdict is Verdict.GO


def test_no_hand_widens_a_wide_bore_by_millimetres() -> None:
    """A hand drill's chuck ends at 13 mm (common practice): over it 0.5 mm is scraped off, or the mesh is put right.

    A seat for a bearing of 22 mm, drawn at 22.1 (ISO 15, 8 x 22 x 7): at 60 % it prints at 13.06 mm, at 98 % at 21.46 mm;
    (22 - 0.5 + 0.2) / 22.1 = 0.9819.
    """
    seat = replace(BORE, diameter_mm=22.1, drawn_diameter_mm=22.1, edge_wall_mm=20.0)
    tight = BoreTight(case=replace(CASE, bore=seat, need_mm=22.0, drill_mm=22.0, smaller=()))

    assert tight.at(0.6).verdict is Verdict.NO_GO
    assert "a hand turns no drill over 13 mm" in tight.at(0.6).why
    assert tight.at(0.6).remedy.startswith("put the bore back to hardware size in the mesh; ")
    assert "at a scale of 98.2 % or more, this bore by itself is wide enough" in tight.at(0.6).remedy
    assert tight.at(0.983).verdict is Verdict.GO_WITH_WORK
    assert tight.at(0.983).remedy.startswith(
        "ream 21.52 to 22.00 mm or, if you have no reamer that wide, widen it with sandpaper"
    )
    assert any(0.9815 < turn < 0.982 for turn in tight.turns())


@pytest.mark.parametrize("drill_mm", [8.2, 13.0])
def test_what_a_chuck_holds_is_drilled_from_any_size(drill_mm: float) -> None:
    """A bore that prints at 4.6 mm is drilled to 8.2 or 13 mm: drills come one after another."""
    wide = replace(CASE, bore=replace(BORE, diameter_mm=8.0, edge_wall_mm=20.0), need_mm=drill_mm, drill_mm=drill_mm)

    assert BoreTight(case=wide).at(0.6).verdict is Verdict.GO_WITH_WORK
    assert f"to {drill_mm:.2f} mm" in BoreTight(case=wide).at(0.6).remedy


def test_drilling_is_not_blamed_for_a_wall_that_is_too_thin_before_it() -> None:
    """An edge of 1.0 mm, 1.1 as it prints, is under 1.35 mm: the rule of the wall tells of it, this one of the bore alone."""
    found = BoreTight(case=replace(CASE, bore=replace(BORE, edge_wall_mm=1.0))).at(1.0)

    assert found.verdict is Verdict.NO_GO
    assert "drilling" not in found.why
    assert not found.why.endswith(("; ", ";"))

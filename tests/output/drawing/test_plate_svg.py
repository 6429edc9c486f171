"""Plates as they are drawn: names inside their outlines and large enough to read, everything kept clear in sight."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planner.job import Bed
from planner.layers import ZERO
from planner.output.drawing.plate_svg import plate_svg
from planner.output.drawing.plate_view import plate_view
from planner.packing import Group, Placement, Plate
from tests.output.conftest import Reports

BED = Bed(shape="rectangle", size_mm=(220.0, 220.0), height_mm=240.0, margin_mm=5.0)
READ_PX = 9.0


def test_everything_that_is_kept_clear_is_drawn() -> None:
    """Edge, margin, a zone with its hatching, half the spacing round the brim, support, and what lies in an opening."""
    bed = replace(BED, zones_mm=(((0.0, 0.0), (30.0, 0.0), (30.0, 20.0)),))
    rings: dict[str, Any] = {
        "ring": (
            ((0.0, 0.0), (90.0, 0.0), (90.0, 90.0), (0.0, 90.0)),
            ((20.0, 20.0), (70.0, 20.0), (70.0, 70.0), (20.0, 70.0)),
        ),
        "cube": (((0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0)),),
    }
    places = tuple(Placement(part=part, copy=1, x_mm=120.0, y_mm=120.0, turn_deg=0.0) for part in rings)
    group = Group(material="petg", colour="any", support=True, brim_mm=3.0)
    plate = Plate(
        number=7,
        group=group,
        placements=places,
        duration_s=ZERO,
        kinds_s={},
        mass_g=None,
        height_mm=10.0,
        fill=0.1,
        file="plates/plate-07.3mf",
    )
    drawn = plate_svg(plate_view(plate, rings, bed), plate, spacing_mm=4.0, held_up={"cube"})

    assert drawn.nested == (("cube", "ring"),)
    assert drawn.svg.count('class="apart"') == drawn.svg.count('class="brim"') == 2
    assert 'class="margin"' in drawn.svg
    assert 'class="zone" fill="url(#zone-7)"' in drawn.svg
    assert drawn.svg.count('class="held" fill="url(#held-7)"') == 1
    apart = drawn.svg.split('class="apart" d="M')[2].split("Z")[0]
    xs = [float(point.split(",")[0]) for point in apart.split("L")]
    assert [min(xs), max(xs)] == pytest.approx([110.0 - 5.0, 130.0 + 5.0], abs=0.05)


TEXTS = """() => [...document.querySelectorAll('svg.bed g')].map((g) => {
  const path = g.querySelector('path.copy'); const bed = g.ownerSVGElement;
  return [...g.querySelectorAll('text')].filter((t) => getComputedStyle(t).display !== 'none').map((t) => {
    const b = t.getBBox(); const m = t.transform.baseVal.consolidate(); const inside = [];
    const deep = 0.75 * b.height / 2;  // a box of text is higher than its letters
    for (const x of [b.x, b.x + b.width]) for (const y of [b.y + b.height / 2 - deep, b.y + b.height / 2 + deep]) {
      let p = bed.createSVGPoint(); p.x = x; p.y = y; if (m) p = p.matrixTransform(m.matrix); inside.push(path.isPointInFill(p)); }
    return {part: g.dataset.part, text: t.textContent, name: t.classList.contains('name'), inside: inside.every(Boolean),
      px: parseFloat(t.getAttribute('font-size')) * bed.getBoundingClientRect().width / bed.viewBox.baseVal.width}; }); })"""


@pytest.mark.parametrize("width", [1280, 390])
def test_every_copy_is_told_so_that_it_can_be_read(shared: Any, reports: Reports, width: int) -> None:
    """In the browser each copy has one text of 9 px or more: its name, inside its outline, or a number of the legend."""
    there = shared("heron", width)
    found = there.tab.evaluate(TEXTS)
    plan = reports.plan("heron")

    assert len(found) == sum(len(plate.placements) for plate in plan.plates)
    assert {len(texts) for texts in found} == {1}
    texts = [texts[0] for texts in found]
    assert [one for one in texts if one["px"] < READ_PX - 0.05] == []
    assert [one for one in texts if one["name"] and not one["inside"]] == []
    assert [one for one in texts if one["name"] and not one["part"].startswith(one["text"].removesuffix("…"))] == []
    legend = {row.split("\n")[0].strip() for row in there.tab.locator(".legend li .n:visible").all_inner_texts()}
    assert {one["text"] for one in texts if not one["name"]} == legend
    assert sum(one["name"] for one in texts) >= (18 if width == 1280 else 8)


def test_plates_print_in_grey(opened: Any) -> None:
    """On paper no colour of a plate differs in red, green and blue."""
    there = opened("heron")
    there.tab.emulate_media(media="print")
    shades = there.tab.evaluate(
        """() => [...document.querySelectorAll('.plates svg.bed *')].flatMap((e) => { const s = getComputedStyle(e); return [s.fill, s.stroke]; })
        .filter((c) => c.startsWith('rgb'))"""
    )
    assert shades
    assert {shade for shade in shades if len(set(shade.strip("rgba()").split(", ")[:3])) > 1} == set()

"""A plate on its card: the bed as it is, and numbers large enough to read."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.output import SIZES
from planner.output.drawing.plate_shapes import plate_shapes
from planner.output.drawing.plate_view import plate_view
from planner.output.drawing.shapes import Drawing
from planner.plan import Plan


def _areas(drawing: Drawing, fill: float | None) -> list[float]:
    """Return the areas of the outer rings of one grey in mm² by the shoelace formula."""
    rings = [shape.rings[0] for shape in drawing.shapes if shape.fill == fill]
    return [
        abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))) / 2
        for ring in rings
    ]


def test_the_bed_on_a_plate_card_is_the_bed(plan: Plan) -> None:
    """A triangular bed is drawn as a triangle, not as its box; a zone kept clear is drawn where it is."""
    rings = {p.part.name: p.outline_mm for p in plan.parts}
    corners, zone = ((0.0, 0.0), (220.0, 0.0), (110.0, 220.0)), ((10.0, 2.0), (20.0, 2.0), (20.0, 12.0), (10.0, 12.0))
    bed = replace(plan.job.printer.bed, shape="polygon", outline_mm=corners, zones_mm=(zone,))
    drawing = plate_shapes(plate_view(plan.plates[0], rings, bed))

    assert _areas(drawing, None)[0] == pytest.approx(220.0 * 220.0 / 2)
    assert _areas(drawing, 0.55) == [pytest.approx(100.0)]


def test_numbers_on_a_plate_can_be_read(plan: Plan) -> None:
    """No type on the drawing of a plate is smaller than 7 points where it stands on the card (45 % of the paper)."""
    wide_mm = 0.45 * SIZES["a4"].inner_mm[0] - 5.0
    rings = {p.part.name: p.outline_mm for p in plan.parts}
    for plate in plan.plates:
        drawing = plate_shapes(plate_view(plate, rings, plan.job.printer.bed))
        for label in drawing.labels:
            assert label.size_mm * wide_mm / drawing.width_mm * 72.0 / 25.4 >= 7.0

"""A plate as facts in mm: every part has one number, every number its room, and what lies in an opening is named."""

from __future__ import annotations

import pytest
import shapely

from planner.job import Bed
from planner.layers import ZERO
from planner.output.drawing.plate_view import plate_view
from planner.packing import Group, Placement, Plate
from planner.plan import Plan

BED = Bed(shape="rectangle", size_mm=(220.0, 180.0), height_mm=240.0, margin_mm=5.0)
RINGS = {
    "ring": (
        ((0.0, 0.0), (90.0, 0.0), (90.0, 90.0), (0.0, 90.0)),
        ((10.0, 10.0), (80.0, 10.0), (80.0, 80.0), (10.0, 80.0)),
    ),
    "cube": (((0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0)),),
}


def _plate(*parts: str) -> Plate:
    """Return a plate with all copies round one place."""
    return Plate(
        number=3,
        group=Group(material="petg", colour="any", support=False, brim_mm=0.0),
        placements=tuple(
            Placement(part=p, copy=k, x_mm=100.0, y_mm=90.0, turn_deg=0.0) for k, p in enumerate(parts, 1)
        ),
        duration_s=ZERO,
        kinds_s={},
        mass_g=None,
        height_mm=10.0,
        fill=0.1,
        file="plates/plate-03.3mf",
    )


def test_the_number_stands_where_there_is_room() -> None:
    """In the middle of a square, half its side from the edge; in a ring, on the ring (geometry)."""
    ring, cube = plate_view(_plate("ring", "cube"), RINGS, BED).copies

    assert cube.outline.centroid.coords[0] == pytest.approx(cube.at_mm)
    assert cube.room_mm == pytest.approx(10.0, abs=0.5)
    assert ring.outline.contains(shapely.Point(ring.at_mm))
    assert ring.room_mm < 10.0


def test_what_lies_in_an_opening_is_named() -> None:
    """The cube lies in the ring's opening, not the other way round; the words name every copy."""
    view = plate_view(_plate("ring", "cube"), RINGS, BED)

    assert view.nested() == (("cube", "ring"),)
    assert view.about() == "Plate 3 from above: ring 1, cube 2"


def test_the_heron_s_parts_are_numbered_from_one(plan: Plan) -> None:
    """On each plate, as many numbers as parts, from 1 on; every copy lies on the bed."""
    rings = {part.part.name: part.outline_mm for part in plan.parts}
    for plate in plan.plates:
        view = plate_view(plate, rings, plan.job.printer.bed)
        assert sorted(view.numbers.values()) == list(range(1, len(view.numbers) + 1))
        assert all(view.edge.contains(copy.outline) for copy in view.copies)

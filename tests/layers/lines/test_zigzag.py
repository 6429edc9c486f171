"""Support is laid in long connected lines: lengths by closed form, and how little the nozzle moves without laying."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import shapely
from manifold3d import CrossSection, OpType

from planner.job import Material, Printer, Settings
from planner.layers import PartEstimate, estimate_part, pitch_mm
from planner.layers.lines.section import shape_of
from planner.layers.lines.support import GAP_MM, SHARE
from planner.layers.lines.zigzag import nearest_first, zigzag_runs
from planner.mesh import Solid, posed
from tests.shapes import Manifold, cylinder, solid_of

DOWN = (0.0, 0.0, -1.0)
PITCH_MM = pitch_mm(0.45, 0.2, SHARE)


@pytest.fixture(name="estimated")
def _estimated(printer: Printer, petg: Material, standard: Settings):  # type: ignore[no-untyped-def]
    def estimated(solid: Solid, **changes: object) -> PartEstimate:
        settings = replace(standard, **changes)  # type: ignore[arg-type]
        return estimate_part(posed(solid, DOWN), settings=settings, printer=printer, material=petg)

    return estimated


def _length_mm(runs: list[np.ndarray]) -> float:
    """Return the length of all runs."""
    return float(sum(np.linalg.norm(np.diff(run, axis=0), axis=1).sum() for run in runs))


def _table(width: float, depth: float, height: float) -> Manifold:
    """Return a plate on four legs of 6 x 6."""
    legs = [Manifold.cube((6, 6, height)).translate((x, y, 0)) for x in (0, width - 6) for y in (0, depth - 6)]
    return Manifold.batch_boolean([*legs, Manifold.cube((width, depth, 4)).translate((0, 0, height))], OpType.Add)


def test_a_plate_on_legs_is_held_by_area_over_spacing(estimated) -> None:  # type: ignore[no-untyped-def]
    """Length of support = layers times the free area over the spacing (geometry); turns and margins within 7 %."""
    found = estimated(solid_of(_table(80.0, 60.0, 30.0)))
    free = 80.0 * 60.0 - 4 * (6.0 + GAP_MM) ** 2
    layers = round(30.0 / 0.2)

    assert found.kinds_mm["support"] == pytest.approx(layers * free / PITCH_MM, rel=0.07)


def test_a_plate_on_legs_takes_a_few_moves_a_layer(estimated) -> None:  # type: ignore[no-untyped-def]
    """Under one plate support is one island: what it adds to the moves is a few per cent of what is laid."""
    table = solid_of(_table(80.0, 60.0, 30.0))
    found, bare = estimated(table), estimated(table, support="none")

    assert found.kinds_mm["travel"] - bare.kinds_mm["travel"] < 0.1 * found.kinds_mm["support"]


def test_a_rectangle_is_one_run() -> None:
    """Area over spacing, and a turn of one spacing for each line but the last."""
    runs = zigzag_runs(CrossSection.square((60.0, 10 * PITCH_MM)), PITCH_MM)

    assert len(runs) == 1
    assert _length_mm(runs) == pytest.approx(10 * 60.0 + 9 * PITCH_MM, rel=1e-6)


@pytest.mark.parametrize("turn", [0.0, 30.0, 90.0, 117.0])
def test_a_strip_narrower_than_the_spacing_is_laid_along(turn: float) -> None:
    """One line from end to end wherever the strip lies: across, it would be fifty strokes, or none."""
    strip = CrossSection.square((60.0, 1.2)).rotate(turn).translate((3.3, 7.7))
    runs = zigzag_runs(strip, PITCH_MM)

    assert len(runs) == 1
    assert _length_mm(runs) == pytest.approx(60.0, rel=0.03)


def test_a_ring_is_laid_in_a_few_runs_inside_itself() -> None:
    """A ring 2 mm wide has short lines at its sides: they join slantwise, and no line crosses the hole."""
    ring = CrossSection.circle(30.0, 180) - CrossSection.circle(28.0, 180)
    runs = zigzag_runs(ring, PITCH_MM)
    laid = shapely.MultiLineString(list(runs))

    assert len(runs) <= 12
    assert shape_of(ring).buffer(0.06).covers(laid)
    assert _length_mm(runs) < 1.6 * np.pi * 58.0


def test_each_next_run_begins_where_it_is_nearest() -> None:
    """Runs are turned round where their end is nearer."""
    one, far, near = (np.array([[x, 0.0], [x + 1, 0.0]]) for x in (0.0, 10.0, 2.0))
    ordered = nearest_first([one, far, near[::-1]], np.array([-1.0, 0.0]))

    assert [float(run[0, 0]) for run in ordered] == [0.0, 2.0, 10.0]


def test_a_cuff_on_its_edges_takes_less_travel_than_support(estimated) -> None:  # type: ignore[no-untyped-def]
    """A half pipe of many facets, narrower at one end: its support is a column, not chevrons with cracks between."""
    body = Manifold.hull(cylinder(56, 1, 96) + cylinder(46, 1, 96).translate((0, 0, 99)))
    bore = Manifold.hull(cylinder(50, 2, 96).translate((0, 0, -1)) + cylinder(40, 2, 96).translate((0, 0, 99)))
    pipe = (body - bore).rotate((0, 90, 0)).split_by_plane((0, 0, 1), 0)[0]
    found, bare = estimated(solid_of(pipe)), estimated(solid_of(pipe), support="none")

    assert found.needs_support
    assert found.kinds_mm["travel"] - bare.kinds_mm["travel"] < 0.7 * found.kinds_mm["support"]

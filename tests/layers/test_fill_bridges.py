"""Fill in stretches, bridges across their span, support out of openings, and both cores with one answer."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.job import Material, Printer, Settings
from planner.layers import Opening, PartEstimate, estimate_part, pitch_mm
from planner.layers.lines.fill import fill_lines
from planner.mesh import Solid, posed
from planner.sourced import stated
from tests.shapes import Manifold, ball, cylinder, solid_of

DOWN = (0.0, 0.0, -1.0)


@pytest.fixture(name="estimated")
def _estimated(printer: Printer, petg: Material, standard: Settings):  # type: ignore[no-untyped-def]
    def estimated(solid: Solid, openings: tuple[Opening, ...] = (), **changes: object) -> PartEstimate:
        return estimate_part(
            posed(solid, DOWN),
            settings=replace(standard, **changes),  # type: ignore[arg-type]
            printer=printer,
            material=petg,
            openings=openings,
        )

    return estimated


def _ring(x0: float, y0: float, x1: float, y1: float) -> np.ndarray:
    return np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1]], dtype=float)


def test_fill_goes_round_a_hole_and_not_across_it() -> None:
    """Each side of the hole is a stretch of its own: the way between lines is a pitch, but for the last turn back."""
    lines = fill_lines([_ring(0, 0, 40, 30), _ring(10, 10, 25, 20)[::-1]], 0.4, 0.0)
    ways = np.linalg.norm(lines[1:, 0] - lines[:-1, 1], axis=1)

    assert (ways > 1.0).sum() <= 2
    assert ways[ways <= 1.0].max() == pytest.approx(0.4)


@settings(max_examples=30, deadline=None)
@given(st.floats(0.3, 3.0), st.floats(-90, 90), st.integers(0, 10_000))
def test_stretches_lay_every_line_once(pitch: float, angle: float, seed: int) -> None:
    """In whatever order, the lines cover the area: length times pitch, as a finer grid does (property)."""
    draw = np.random.default_rng(seed)
    turns = np.sort(draw.uniform(0, 2 * np.pi, 14))
    star = np.column_stack([np.cos(turns), np.sin(turns)]) * draw.uniform(15, 40, 14)[:, None]
    x, y = star.T
    area = abs(x @ np.roll(y, -1) - np.roll(x, -1) @ y) / 2
    lines = fill_lines([star], pitch, angle)
    length = np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1)

    assert length.sum() * pitch == pytest.approx(area, rel=0.05, abs=60 * pitch)
    assert len(np.unique(np.round(np.sort(lines.reshape(-1, 4), axis=1), 9), axis=0)) == len(lines)


def test_a_bridge_is_laid_across_its_span_at_its_own_speed(estimated) -> None:  # type: ignore[no-untyped-def]
    """A gate 4 mm wide and 20 deep: lines across it fill its roof, between the contours and a line's width beyond."""
    gate = solid_of(Manifold.cube((20, 20, 20)) - Manifold.cube((4, 30, 10)).translate((8, -5, 0)))
    slow, fast = (estimated(gate, bridge_speed_mm_s=stated(speed)) for speed in (10.0, 40.0))
    pitch = pitch_mm(0.45, 0.2)
    deep = 20 - 2 * ((0.45 - pitch) / 2 + 3 * pitch)  # inside three contours at either side
    meant = deep * (4 + 2 * (0.45 - 0.2)) / pitch  # less what the layer below reaches over, plus a line's width

    assert slow.bridge_span_mm == pytest.approx(4.0, abs=0.5)
    assert slow.kinds_mm["bridge"] == pytest.approx(meant, rel=0.06)
    assert slow.kinds_s["bridge"] > 3 * fast.kinds_s["bridge"]
    assert slow.deposited_mm3 == pytest.approx(fast.deposited_mm3)
    assert not slow.needs_support


def test_a_solid_without_overhang_has_no_bridge(estimated) -> None:  # type: ignore[no-untyped-def]
    """A cone and a box bridge nothing."""
    assert estimated(solid_of(Manifold.cylinder(20, 12, 3, 96))).bridge_span_mm == 0.0
    assert estimated(solid_of(Manifold.cube((20, 20, 10)))).kinds_mm["bridge"] == 0.0


@pytest.mark.parametrize(("diameter", "filled"), [(5.0, False), (20.0, True)])
def test_support_inside_an_opening_is_told(estimated, diameter: float, filled: bool) -> None:  # type: ignore[no-untyped-def]
    """A lying bore of 5 mm stays free; one of 20 mm is filled, by no more than its own volume (geometry)."""
    block = Manifold.cube((30, 20, 30), True) - cylinder(diameter, 40, 96).translate((0, 0, -20)).rotate((90, 0, 0))
    axis = np.array([[[0.0, -10.0, 15.0], [0.0, 10.0, 15.0]]])
    found = estimated(solid_of(block), (Opening(name="bore b1", rods_mm=axis, radius_mm=diameter / 2),))

    assert ("bore b1" in found.support_inside_mm3) == filled
    if filled:
        assert 100.0 < found.support_inside_mm3["bore b1"] < math.pi / 4 * diameter**2 * 20


@pytest.mark.parametrize("shape", ["ball", "cone", "box"])
def test_layers_hold_the_volume_within_the_bound_that_they_state(estimated, shape: str) -> None:  # type: ignore[no-untyped-def]
    """The midpoint rule errs by no more than half a layer times the change of area (numerical analysis)."""
    solid = {
        "ball": ball(30.0, 128),
        "cone": solid_of(Manifold.cylinder(20, 12, 3, 96)),
        "box": solid_of(Manifold.cube((20, 20, 7.13))),
    }[shape]
    found = estimated(solid)

    assert abs(found.sections_mm3 - solid.volume_mm3) <= found.sections_slack_mm3
    assert found.sections_mm3 == pytest.approx(solid.volume_mm3, rel=3e-3)

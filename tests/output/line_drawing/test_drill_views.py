"""Sketches of parts from the side one drills from, at size."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import pytest

from planner.output.line_drawing.drill_views import Opening, drill_views
from tests.shapes import Manifold, cylinder, solid_of


def _part(*, mirrored: bool = False) -> Any:
    """Return a plate of 60 by 40 by 10 mm with a hole through it at (10, 5) and a blind one from below at (-10, 5)."""
    body = Manifold.cube((60.0, 40.0, 10.0), True)
    body -= cylinder(4.0, 30.0, 48).translate((10.0, 5.0, -15.0))
    body -= cylinder(3.0, 6.0, 48).translate((-10.0, 5.0, -6.0))
    sized = solid_of(body.mirror((1.0, 0.0, 0.0)) if mirrored else body)
    return SimpleNamespace(
        part=SimpleNamespace(name="plate"), sized=sized, scale_percent=(100.0, 100.0, 100.0), mirrored=mirrored
    )


THROUGH = Opening(id="b1", centre_mm=(10.0, 5.0, 0.0), axis=(0, 0, 1), diameter_mm=4.0, text="b1: drill")
BLIND = Opening(id="b2", centre_mm=(-10.0, 5.0, -3.0), axis=(0, 0, 1), diameter_mm=3.0, text="b2: drill, 5.0 mm deep")


def _rings(view: Any) -> dict[float, tuple[float, float]]:
    """Return the middles of the bold rings by their diameter, from the drawing's lower left corner."""
    found = {}
    for shape in view.drawing.shapes:
        if shape.stroke_mm == 0.7:
            (ring,) = shape.rings
            x, y = zip(*ring, strict=True)
            found[round(max(x) - min(x), 1)] = ((max(x) + min(x)) / 2, (max(y) + min(y)) / 2)
    return found


def test_a_through_bore_is_seen_from_above_at_true_size() -> None:
    """Its ring is 4 mm wide and 20 mm from the right edge of a plate that is 60 mm long (by hand)."""
    (view,) = drill_views(_part(), [THROUGH], 170.0)
    assert (view.ids, view.ratio, view.drawing.true_size) == (("b1",), 1, True)
    at = _rings(view)[4.0]
    edge = max(x for shape in view.drawing.shapes for ring in shape.rings for x, _ in ring)
    assert edge - at[0] == pytest.approx(20.0, abs=0.1)
    assert "b1" in [label.text for label in view.drawing.labels]


def test_a_blind_bore_is_seen_from_its_mouth() -> None:
    """It is drilled from below, where both are open: one sketch, in which they lie 20 mm apart, left and right swapped."""
    (view,) = drill_views(_part(), [THROUGH, BLIND], 170.0)
    rings = _rings(view)
    assert set(view.ids) == {"b1", "b2"}
    assert math.dist(rings[4.0], rings[3.0]) == pytest.approx(20.0, abs=0.1)
    assert rings[4.0][0] < rings[3.0][0] or rings[4.0][1] == pytest.approx(rings[3.0][1], abs=0.1)


def test_a_mirrored_part_is_sketched_mirrored() -> None:
    """What lies 20 mm from the right edge as drawn lies 20 mm from the left edge as printed."""
    (view,) = drill_views(_part(mirrored=True), [THROUGH], 170.0)
    edge = min(x for shape in view.drawing.shapes for ring in shape.rings for x, _ in ring)
    assert _rings(view)[4.0][0] - edge == pytest.approx(20.0, abs=0.1)


def test_a_part_too_large_is_drawn_smaller() -> None:
    """On a paper 40 mm wide a plate of 60 mm is drawn at half its size, and says so."""
    (view,) = drill_views(_part(), [THROUGH], 40.0)
    assert view.ratio == 2
    assert "1 : 2" in view.drawing.about
    assert 2.0 in _rings(view)

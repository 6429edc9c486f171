"""All that is laid lies within the outline that plates are made of: support beside a stem, and the brim around."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.job import Settings, read_settings
from planner.layers import LINE_KINDS, laid_layers
from planner.mesh import Solid
from planner.packing import outline_of
from planner.sourced import stated
from tests.shapes import Manifold, cuboid, solid_of

NEAR_MM = 0.03
"""An outline is simplified by 0.02 mm."""


def lines_of(solid: Solid, by: Settings, kind: int) -> Any:
    """Return the middle lines of one kind over all layers, as an array of line strings."""
    found = [np.zeros((0, 2, 2))]
    for layer in laid_layers(solid, by).layers():
        if layer.path.points:
            points, kinds = np.concatenate(layer.path.points), np.concatenate(layer.path.kinds)
            found.append(np.stack([points[:-1], points[1:]], axis=1)[kinds == kind])
    return shapely.linestrings(np.concatenate(found))


def beads_within(shape: shapely.Polygon, lines: Any, by: Settings) -> bool:
    """Return whether beads along lines lie in a shape: their middles half a line inside it."""
    room = shape.buffer(NEAR_MM - by.line_width_mm.value / 2)
    shapely.prepare(room)
    return bool(shapely.covers(room, lines).all())


def outline(solid: Solid) -> shapely.Polygon:
    """Return the outline that plates are made of."""
    rings = outline_of(solid)
    return shapely.Polygon(rings[0], rings[1:])


SUPPORT, BRIM = LINE_KINDS.index("support"), LINE_KINDS.index("brim")
STANDARD = read_settings("standard-0.4", Path())


def test_support_that_stands_beside_a_stem_lies_in_the_shadow_of_what_it_holds(standard: Settings) -> None:
    """A T whose bar is on top: support fills the room beside its stem, and the outline covers it."""
    solid = solid_of(
        Manifold.cube((6, 10, 25)).translate((12, 0, 0)) + Manifold.cube((30, 10, 5)).translate((0, 0, 20))
    )
    support = lines_of(solid, standard, SUPPORT)
    stem = shapely.box(12, 0, 18, 10)

    assert len(support) > 500
    assert not shapely.intersects(support, stem).any()
    assert shapely.bounds(support)[:, 0].min() < 1.0
    assert beads_within(outline(solid), support, standard)
    assert not beads_within(stem, support, standard)


@pytest.mark.parametrize("brim_mm", [0.4, 0.45, 1.0, 3.0, 5.0, 7.77])
def test_a_brim_ends_within_its_width(standard: Settings, brim_mm: float) -> None:
    """The outermost bead of a brim reaches no farther than the settings say, and less than a line's width less far."""
    asked = replace(standard, brim_mm=stated(brim_mm, "test"))
    solid = cuboid(20, 12, 2)
    brim = lines_of(solid, asked, BRIM)

    assert beads_within(outline(solid).buffer(brim_mm), brim, asked)
    assert shapely.bounds(brim)[:, 2].max(initial=20.0 - 0.225) > 20.0 + brim_mm - 0.225 - 0.45


@settings(max_examples=25)
@given(seed=st.integers(0, 10_000))
def test_support_never_leaves_the_shadow(seed: int) -> None:
    """Property: of random bodies with overhangs of every kind, no bead of support reaches outside the outline."""
    rng = np.random.default_rng(seed)
    body = Manifold()
    for _ in range(int(rng.integers(2, 6))):
        size = rng.uniform(3.0, 20.0, 3)
        made = (
            Manifold.cube(tuple(size), True),
            Manifold.cylinder(size[2], size[0] / 2, size[1] / 2, int(rng.integers(3, 24))),
            Manifold.hull_points(rng.normal(size=(8, 3)) * size / 2),
        )[int(rng.integers(3))]
        body += made.rotate(tuple(rng.uniform(-180, 180, 3))).translate(tuple(rng.uniform(-12, 12, 3)))
    solid = solid_of(body.translate((0, 0, -body.bounding_box()[2])))

    assert beads_within(outline(solid), lines_of(solid, STANDARD, SUPPORT), STANDARD)

"""Support: under what leans too far, not in bores or under bridges."""

from __future__ import annotations

import math

import pytest
from manifold3d import CrossSection

from tests.layers.conftest import Estimated
from tests.shapes import Manifold, cylinder, solid_of


def test_support_is_laid_under_what_hangs_and_not_in_bores_or_bridges(estimated: Estimated) -> None:
    """A wide T needs support, a bore with a level axis of 5 mm and a bridge of 4 mm do not."""
    wide = solid_of(Manifold.cube((4, 20, 20)).translate((18, 0, 0)) + Manifold.cube((40, 20, 4)).translate((0, 0, 20)))
    bored = solid_of(Manifold.cube((20, 20, 20), True) - cylinder(5, 40, 64).translate((0, 0, -20)).rotate((90, 0, 0)))
    bridge = solid_of(Manifold.cube((20, 20, 20)) - Manifold.cube((4, 30, 10)).translate((8, -5, 0)))

    assert estimated(wide).needs_support
    assert not estimated(bored).needs_support
    assert not estimated(bridge).needs_support
    assert estimated(wide, support="none").support_mm3 == 0.0
    assert estimated(wide, support="none").needs_support


@pytest.mark.parametrize(("lean", "needed"), [(30, False), (44, False), (60, True), (70, True), (80, True)])
def test_a_flat_slope_is_held_up_over_its_whole_length(estimated: Estimated, lean: float, needed: bool) -> None:
    """A buttress leans out over the bed: the air under it is filled, less a strip at its edge that prints alone.

    Half the run times the rise times the depth (geometry), of which the model lays a share of 0.15, and a turn of one
    spacing, 2.7 mm, at the end of every line of 20 mm.
    """
    run = 15 * math.tan(math.radians(lean))
    outline = CrossSection([[(0, 0), (10, 0), (10 + run, 15), (10 + run, 20), (0, 20)]])
    found = estimated(solid_of(Manifold.extrude(outline, 20).rotate((90, 0, 0))))

    assert found.needs_support == needed
    if needed:
        assert found.bridge_span_mm == 0.0
        assert 0.35 < found.support_mm3 / (0.15 * (1 + 2.7 / 20) * run * 15 * 20 / 2) < 1.05
        assert 0.6 < found.supported_mm2 / (run * 20) < 1.3


@pytest.mark.parametrize(("lean", "needed"), [(30, False), (44, False), (70, True), (80, True)])
def test_a_slope_is_supported_where_it_leans_too_far(estimated: Estimated, lean: float, needed: bool) -> None:
    """An upside-down cone prints by itself up to 45 degrees from vertical and needs support well beyond."""
    wide = 5 + 8 * math.tan(math.radians(lean))
    cone = solid_of(Manifold.cylinder(8, 5, wide, 96))

    assert estimated(cone).needs_support == needed

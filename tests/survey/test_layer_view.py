"""The layer view: what a line cannot lay in a pose, by the opening of sections."""

from __future__ import annotations

import numpy as np
import pytest

from planner.mesh import Solid
from planner.survey import layer_view
from planner.survey.layer_view import WIDTHS_MM, LayerView
from tests.shapes import Manifold, ball, cuboid, solid_of, tube

DOWN = (0.0, 0.0, -1.0)


def _view(solid: Solid, down: tuple[float, float, float] = DOWN) -> LayerView:
    """Return the view of a sound solid."""
    view = layer_view(solid, down)
    assert view is not None
    return view


def test_blocks_tubes_and_balls_are_laid_whole() -> None:
    """Thick solids lose nothing: the rounding of corners is not counted."""
    for solid in (cuboid(20, 10, 5), tube(20, 14, 10), ball(20.0)):
        assert _view(solid).share[: len(WIDTHS_MM) - 1] == pytest.approx(0.0, abs=1e-3)


def test_a_rib_is_lost_by_a_wider_line_only() -> None:
    """A 0.45 mm rib of 8 x 4 on a 20 x 10 x 4 block: lines to 0.4 lay it, from 0.5 its 0.45 x 8 of (200 + 3.6) are lost."""
    solid = solid_of(Manifold.cube((20, 10, 4)) + Manifold.cube((8.1, 0.45, 4)).translate((19.9, 5, 0)))
    view = _view(solid)
    lost = 8 * 0.45 / (200 + 8 * 0.45)

    assert view.unlaid_share(0.4) == pytest.approx(0.0, abs=1e-3)
    assert view.unlaid_share(0.5) == pytest.approx(lost, rel=0.1)


def test_a_pose_decides() -> None:
    """A feather edge of 5 degrees shows when its section tapers, and not when it lies flat."""
    wedge = solid_of(
        Manifold.hull_points(
            np.array([(0, 0, 0), (20, 0, 0), (0, 0, 1.75), (0, 10, 0), (20, 10, 0), (0, 10, 1.75)], float)
        )
    )
    on_its_side, flat = _view(wedge, (0.0, -1.0, 0.0)), _view(wedge)

    assert on_its_side.unlaid_share(0.5) > 0.03
    assert flat.unlaid_share(0.5) < on_its_side.unlaid_share(0.5)


def test_an_unsound_mesh_has_no_view() -> None:
    """Without sections there is none; the mesh itself is a hold already."""
    from dataclasses import replace

    assert layer_view(replace(cuboid(5, 5, 5), faults=("open at 3 edges",)), DOWN) is None


def test_a_contour_of_very_many_corners_says_the_same() -> None:
    """A disc of 20,000 corners with a thin rib loses what a disc of 200 corners loses, in no more offsets."""
    rib = Manifold.cube((8.0, 0.45, 2)).translate((9.9, -0.2, 0))
    fine, coarse = (_view(solid_of(Manifold.cylinder(2.0, 10.0, circular_segments=n) + rib)) for n in (20_000, 200))

    assert fine.share == pytest.approx(coarse.share, abs=1e-4)

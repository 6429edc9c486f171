"""One copy against its part, an L printed in rings: what is as planned, and what is not, by hand."""

from __future__ import annotations

import math

import pytest
import shapely

from planner.gcode.copies.copy_compare import CopyReport, best_fit, compared
from planner.gcode.copies.part_as_planned import Original
from planner.gcode.copies.piece import Piece
from planner.job import read_limits
from tests.gcode.copies.rings import ELBOW, FIRST_MM, LAYER_MM, WIDTH_MM, pose, printed, prism, rings
from tests.gcode.plate import SETTINGS

LAYERS_N = 10
TOP_MM = FIRST_MM + 9 * LAYER_MM
PART = Original.of(prism(ELBOW, LAYERS_N), SETTINGS, support=False)
RINGS = rings(ELBOW)


def _compared(piece: Piece) -> CopyReport:
    """Compare a piece that lies as planned."""
    return compared(piece, PART, (pose(),), SETTINGS, read_limits())


def test_a_copy_as_planned_differs_nowhere() -> None:
    """Ten layers from 0.24 to 2.04 mm, the size as planned, no gap, and the filament that its motion takes."""
    found = _compared(printed(LAYERS_N, lambda _: RINGS))

    assert (found.over, found.open, found.gaps_mm) == ((), (), ())
    assert found.layers_n == LAYERS_N
    assert (found.bottom_mm, found.top_mm) == pytest.approx((FIRST_MM, TOP_MM))
    assert found.least_top_mm == pytest.approx(TOP_MM)
    assert found.motion_fed_share == pytest.approx(1.0, abs=0.001)
    assert (found.fit.x_share, found.fit.y_share) == pytest.approx((1.0, 1.0), abs=0.002)


def test_layers_left_out_are_a_gap_between_their_neighbours() -> None:
    """Without the fifth to the seventh layer: from the top of the fourth to that of the eighth."""
    (gap,) = _compared(printed(LAYERS_N, lambda _: RINGS, skipped=(4, 5, 6))).gaps_mm

    assert gap == pytest.approx((FIRST_MM + 3 * LAYER_MM, FIRST_MM + 7 * LAYER_MM))


def test_a_line_beside_some_layers_is_told_with_its_place_and_volume() -> None:
    """5 mm of a line on five layers, 2 mm beside the L: a stadium (geometry) of one millimetre's height."""
    more = [((10.0, 8.0), (14.0, 11.0))]
    (place,) = _compared(printed(LAYERS_N, lambda k: RINGS + more * (3 <= k < 8))).over

    assert place.volume_mm3 == pytest.approx((5.0 * WIDTH_MM + math.pi * WIDTH_MM**2 / 4) * 5 * LAYER_MM, rel=0.05)
    assert place.at_mm == pytest.approx((12.0, 9.5), abs=0.1)
    assert (place.low_mm, place.high_mm) == pytest.approx((FIRST_MM + 2 * LAYER_MM, FIRST_MM + 7 * LAYER_MM))


def test_filament_that_is_off_everywhere_is_told_by_itself() -> None:
    """Fed 30 % too much, lines are broader by far than edges allow, yet nothing is outside: the share says it."""
    found = _compared(printed(LAYERS_N, lambda _: RINGS, fed=1.3))

    assert found.motion_fed_share == pytest.approx(1.3, abs=0.001)
    assert found.over == ()
    assert all(window.motion_share == pytest.approx(1.3, abs=0.001) for window in found.windows)


@pytest.mark.parametrize("mirrored", [False, True])
def test_the_pose_that_differs_least_is_taken(*, mirrored: bool) -> None:
    """Of an L and its mirror image both poses are tried: the one as printed has hardly a difference."""
    outline = shapely.transform(ELBOW, lambda p: p * (-1.0, 1.0)) if mirrored else ELBOW
    piece = printed(LAYERS_N, lambda _: rings(outline))
    fit, share = best_fit(piece, PART, (pose(), pose(mirrored=True)), SETTINGS)

    assert fit.pose.mirrored is mirrored
    assert share < 0.001

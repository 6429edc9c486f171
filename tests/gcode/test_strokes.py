"""Strokes: lines with filament, their width and their layers."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.gcode.strokes import Strokes, bead_width_mm, joined

LINE = Strokes(
    start_mm=np.array([[0.0, 0.0]]),
    end_mm=np.array([[3.0, 4.0]]),
    level_mm=np.array([0.31]),
    volume_mm3=np.array([1.0]),
)


@pytest.mark.parametrize(("width", "height"), [(0.45, 0.2), (0.6, 0.3), (0.3, 0.3)])
def test_the_width_of_a_bead_gives_its_area_back(width: float, height: float) -> None:
    """A stadium has (w - h) h + pi h2 / 4 (geometry); as wide as high it is a circle."""
    area = (width - height) * height + math.pi * height**2 / 4

    assert bead_width_mm(np.array([area]), height)[0] == pytest.approx(width)


def test_a_spiral_is_put_into_the_layer_that_it_climbs_through() -> None:
    """After a first layer of 0.2 and by steps of 0.1: 0.31 belongs to the layer that ends at 0.4, 0.4 too."""
    climbing = Strokes(
        start_mm=np.zeros((3, 2)),
        end_mm=np.ones((3, 2)),
        level_mm=np.array([0.05, 0.31, 0.4]),
        volume_mm3=np.ones(3),
    )

    assert climbing.in_layers_of(0.2, 0.1).level_mm == pytest.approx([0.2, 0.4, 0.4])


def test_another_frame_keeps_lengths_and_joining_keeps_the_order() -> None:
    """A quarter turn and a shift: the line of 3, 4 ends at (-4, 3) + (10, 0), 5 mm long; joined it comes first."""
    turned = LINE.seen_from(np.array([[0.0, -1.0], [1.0, 0.0]]), np.array([10.0, 0.0]))
    both = joined([LINE, turned])

    assert turned.end_mm[0] == pytest.approx([6.0, 3.0])
    assert both.length_mm == pytest.approx([5.0, 5.0])
    assert both.end_mm[0] == pytest.approx([3.0, 4.0])
    assert len(joined([])) == 0


def test_the_middle_of_a_stroke_lies_halfway() -> None:
    """Half the sum of both ends."""
    both = (LINE.start_mm + LINE.end_mm).tolist()

    assert (2.0 * LINE.middle_mm).tolist() == both

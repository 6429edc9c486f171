"""A straight way in is one along which nothing stands."""

from __future__ import annotations

import numpy as np
import pytest

from planner.output.line_drawing.scene import Body
from planner.output.line_drawing.ways_in import WaysIn
from tests.shapes import cuboid


def _body(size: tuple[float, float, float], at: tuple[float, float, float]) -> Body:
    return Body(solid=cuboid(*size), turn=np.eye(3), shift_mm=np.array(at))


def test_what_lies_on_a_plate_comes_from_above() -> None:
    """A block on a plate moves in downward; between two plates no way that meets them is free."""
    ways = WaysIn(
        {
            "plate": _body((40, 40, 2), (0, 0, 0)),
            "block": _body((10, 10, 5), (0, 0, 2)),
            "lid": _body((40, 40, 2), (0, 0, 7)),
        }
    )
    way = ways.free(["block"], ["plate"], ["plate"], ())
    assert way is not None
    assert way == pytest.approx([0, 0, -1])
    assert ways.free(["block"], ["plate", "lid"], ["plate"], ()) is None


def test_hardware_says_along_which_axis() -> None:
    """Parts that a screw along x joins do not come along z, though that is free."""
    ways = WaysIn({"plate": _body((40, 40, 2), (0, 0, 0)), "block": _body((10, 10, 5), (0, 0, 2))})
    assert ways.free(["block"], ["plate"], ["plate"], [np.array([1.0, 0.0, 0.0])]) is None
    assert ways.free(["block"], ["plate"], ["plate"], [np.array([0.0, 0.0, -1.0])]) is not None

"""Cuts that run out through an end: left out, while those of a leaning or tapering side stay."""

from __future__ import annotations

import numpy as np

from planner.strength.beam.cut_shapes import cuts_along
from tests.shapes import cuboid

BAR = cuboid(60.0, 10.0, 10.0)
SHARES = (0.002, 0.02, 0.1, 0.5)


def _areas(from_mm: tuple[float, float, float], to_mm: tuple[float, float, float]) -> list[float]:
    """Return areas of the cuts that count."""
    return [shape.area for _, shape, _ in cuts_along(BAR, np.array(from_mm), np.array(to_mm), SHARES)]


def test_a_way_that_leans_has_no_cut_through_half_of_the_end() -> None:
    """From the end's middle up to the far top: the first cut would take half of the end, the others are whole."""
    slant = (60.0**2 + 5.0**2) ** 0.5 / 60.0

    assert np.allclose(_areas((0.0, 5.0, 5.0), (60.0, 5.0, 10.0)), 100.0 * slant)
    assert len(_areas((0.0, 5.0, 5.0), (60.0, 5.0, 10.0))) == 3


def test_a_way_along_the_part_keeps_every_cut() -> None:
    """Ends square to the way are never run along."""
    assert np.allclose(_areas((0.0, 5.0, 5.0), (60.0, 5.0, 5.0)), [100.0] * 4)

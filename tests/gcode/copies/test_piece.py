"""A piece: its layers, the heights and widths of its beads."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.gcode.copies.piece import Sections, piece_of
from planner.gcode.strokes import Strokes
from tests.gcode.plate import SETTINGS
from tests.shapes import cuboid

FIRST_MM = SETTINGS.first_layer_height_mm.value
WIDTH_MM = SETTINGS.line_width_mm.value


def _lines(levels: list[float], height: float, *, scale: float = 1.0) -> Strokes:
    """Return a line of 10 mm at each level, with the filament of a bead of the planned width."""
    area = (WIDTH_MM - height) * height + math.pi * height**2 / 4
    n = len(levels)
    return Strokes(
        start_mm=np.zeros((n, 2)),
        end_mm=np.tile([10.0, 0.0], (n, 1)),
        level_mm=np.array(levels),
        volume_mm3=np.full(n, 10.0 * area * scale),
    )


def test_layers_are_found_whatever_the_order_of_lines() -> None:
    """Three layers, written from the top: each has its own lines and its own height."""
    levels = [FIRST_MM + 0.4, FIRST_MM + 0.2, FIRST_MM + 0.2, FIRST_MM]
    piece = piece_of(_lines(levels, 0.2), SETTINGS)

    assert piece.tops_mm == pytest.approx([FIRST_MM, FIRST_MM + 0.2, FIRST_MM + 0.4])
    assert [len(piece.layer(k)) for k in range(3)] == [1, 2, 1]
    assert [piece.height_mm(k) for k in range(3)] == pytest.approx([FIRST_MM, 0.2, 0.2])


def test_a_wipe_is_no_layer() -> None:
    """A height with a ten-thousandth of the filament is where the nozzle was wiped."""
    lines = _lines([FIRST_MM, FIRST_MM + 0.2, FIRST_MM + 0.3], 0.2)
    lines.volume_mm3[2] *= 1e-4

    assert len(piece_of(lines, SETTINGS).tops_mm) == 2


@pytest.mark.parametrize("fed", [0.8, 1.0, 1.3])
def test_widths_follow_the_filament(fed: float) -> None:
    """A stadium of twice the area is wider by area over height (geometry): dw = dA / h."""
    piece = piece_of(_lines([FIRST_MM], FIRST_MM, scale=fed), SETTINGS)
    area = (WIDTH_MM - FIRST_MM) * FIRST_MM + math.pi * FIRST_MM**2 / 4
    wanted = WIDTH_MM + (fed - 1.0) * area / FIRST_MM

    assert piece.widths_mm(piece.layer(0), FIRST_MM)[0] == pytest.approx(wanted)


def test_sections_are_those_of_the_solid() -> None:
    """A cuboid of 6 x 5 has 30 mm2 at every height within, nothing above."""
    sections = Sections.of(cuboid(6, 5, 4))

    assert sections.at(2.0).area() == pytest.approx(30.0)
    assert sections.at(5.0).is_empty()

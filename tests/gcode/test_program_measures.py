"""The measures of a program that follow from others."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from planner.gcode import measure
from planner.gcode.program_measures import Measured
from tests.gcode.plate import PRINTER

SQUARE = "G28\nG90\nM83\nM104 S240\n" + "".join(
    f"G1 Z{z} F600\nG1 X50 Y50 F3000\nG1 X90 E2\nG1 Y80 E1.5\nG1 X50 E2\nG1 Y50 E1.5\n" for z in (0.2, 0.4, 0.6)
)


@pytest.fixture(name="square")
def _square(tmp_path: Path) -> Measured:
    """Measure a frame of 40 x 30 mm in three layers."""
    path = tmp_path / "a.gcode"
    path.write_text(SQUARE, encoding="utf-8")
    return measure(path, PRINTER)


def test_layers_are_heights_and_the_size_is_that_of_the_lines(square: Measured) -> None:
    """Three heights are three layers; 40 x 30 mm from the middle of a bead to the middle of the other."""
    assert square.layers_n == 3
    assert square.size_mm[:2] == pytest.approx([40.0, 30.0])
    assert square.heights_mm == pytest.approx([0.2, 0.4, 0.6])


def test_the_layers_of_a_spiral_are_its_turns(square: Measured) -> None:
    """A spiral climbs all the time, so its heights say nothing."""
    assert replace(square, spiral_turns_n=7.6, heights_mm=np.arange(500.0)).layers_n == 8

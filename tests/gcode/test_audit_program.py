"""The audit and the bed: where it ends is its outline, not its box."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from planner.finding import Verdict
from planner.gcode import ExpectedPart, audit, measure
from planner.job import read_printer
from planner.mesh import placed, posed
from tests.gcode.plate import EXPECTED, HERE, PRINTER, SETTINGS
from tests.gcode.writer import Program
from tests.shapes import cylinder, solid_of


@pytest.mark.parametrize(("middle", "off"), [((120.0, 120.0), False), ((40.0, 40.0), True)])
def test_the_corner_of_a_round_bed_is_no_bed(middle: tuple[float, float], off: bool, tmp_path: Path) -> None:
    """A disc 60 wide at (40, 40) lies within the square of 240, and 84 mm from the middle it ends 23 past the rim."""
    disc = ExpectedPart(name="disc", solid=posed(solid_of(cylinder(60, 2, 64)), (0, 0, -1)), count=1)
    expected = replace(EXPECTED, parts=(disc,), printer=read_printer("round-240", HERE))
    path = Program(skirt=False).write(tmp_path / "a.gcode", [placed(disc.solid, *middle, 0.0)], SETTINGS)
    edge = next(f for f in audit(measure(path, expected.printer), expected).findings if f.rule == "program.bed-edge")

    assert (edge.verdict is not Verdict.GO) == off
    assert edge.measured == pytest.approx(np.hypot(80, 80) + 30 - 0.225 - 120 if off else 0.0, abs=0.1)


def test_a_bed_of_many_corners_ends_at_its_outline(tmp_path: Path) -> None:
    """A bed without its front left corner: a disc 60 wide at (40, 40) reaches past the cut from (100, 0) to (0, 100)."""
    cut = replace(
        PRINTER.bed,
        shape="polygon",
        outline_mm=((100.0, 0.0), (220.0, 0.0), (220.0, 220.0), (0.0, 220.0), (0.0, 100.0)),
    )
    disc = ExpectedPart(name="disc", solid=posed(solid_of(cylinder(60, 2, 64)), (0, 0, -1)), count=1)
    expected = replace(EXPECTED, parts=(disc,), printer=replace(PRINTER, bed=cut))
    path = Program(skirt=False).write(tmp_path / "a.gcode", [placed(disc.solid, 40.0, 40.0, 0.0)], SETTINGS)
    edge = next(f for f in audit(measure(path, expected.printer), expected).findings if f.rule == "program.bed-edge")

    assert edge.verdict is not Verdict.GO
    assert edge.measured == pytest.approx((100 - 80) / np.sqrt(2) + 30 - 0.225, abs=0.1)

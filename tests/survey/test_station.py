"""Stations: the inside of a part at a place along it."""

from __future__ import annotations

import pytest

from planner.survey import inside_mm
from sample_parts.arm_group import cuff
from tests.shapes import cuboid, solid_of


def test_a_cuff_is_measured_inside_by_its_section() -> None:
    """Near its elbow end the cuff's inside width is twice its inner radius, less the taper there."""
    width = inside_mm(solid_of(cuff()), 1.0, "width")

    assert width == pytest.approx(62.0, rel=0.03)


def test_a_block_has_no_inside() -> None:
    """A solid block gives no inside measure rather than a wrong one."""
    assert inside_mm(cuboid(60, 20, 20), 50.0, "width") is None

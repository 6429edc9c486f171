"""A pattern's DXF is in mm, with closed lines on layers."""

from __future__ import annotations

import io

import ezdxf
import numpy as np
import pytest
from ezdxf.entities.lwpolyline import LWPolyline

from planner.output.pattern.pattern_dxf import pattern_dxf
from tests.output.pattern.worked import patterns


def test_lines_come_back_as_they_were_meant() -> None:
    """Units are millimetres (AutoCAD's $INSUNITS 4, DXF reference), the outline closed, the slot cut, the bore a point."""
    flat = patterns().patterns[1].flat
    assert flat is not None
    drawing = ezdxf.read(io.StringIO(pattern_dxf(flat)))  # type: ignore[attr-defined]  # not in its list of names
    space = drawing.modelspace()
    lines = [one for one in space if isinstance(one, LWPolyline)]

    assert drawing.header["$INSUNITS"] == 4
    assert [line.dxf.layer for line in lines] == ["OUTLINE", "CUT_OUT"]
    assert all(line.closed for line in lines)
    assert np.array(lines[0].get_points("xy")) == pytest.approx(np.array(flat.rings[0]))
    assert [point.dxf.layer for point in space.query("POINT")] == ["MARKS"]
    assert not drawing.audit().errors


def test_the_same_pattern_gives_the_same_text() -> None:
    """No date and no chance stands in it."""
    flat = patterns().patterns[0].flat
    assert flat is not None

    assert pattern_dxf(flat) == pattern_dxf(flat)

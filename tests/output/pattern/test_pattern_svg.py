"""A pattern's SVG is of true size, its outline is one path, and a job can name it as an outline."""

from __future__ import annotations

from pathlib import Path

import pytest
import svgelements

from planner.job import area_mm2, read_outline
from planner.output.pattern.pattern_svg import pattern_svg
from tests.output.pattern.worked import patterns


@pytest.mark.parametrize("index", [0, 1, 2])
def test_a_job_reads_it_back_as_an_outline(index: int, tmp_path: Path) -> None:
    """Area and sizes come back by another library (svgelements), with cut-outs, without crosses."""
    flat = patterns().patterns[index].flat
    assert flat is not None
    path = tmp_path / "pad.svg"
    path.write_text(pattern_svg(flat, "Padding & more"), encoding="utf-8")
    rings = read_outline(path)

    assert len(rings) == len(flat.rings)
    assert area_mm2(rings) == pytest.approx(flat.area_mm2, rel=1e-4)
    assert max(x for x, _ in rings[0]) == pytest.approx(flat.size_mm[0], abs=2e-3)
    paths = [one for one in svgelements.SVG.parse(str(path)).elements() if isinstance(one, svgelements.Path)]
    assert [one.id for one in paths] == ["outline", *["marks"] * bool(flat.marks), *["darts"] * bool(flat.darts)]

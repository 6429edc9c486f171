"""The folder of patterns holds those of the last run, and what people laid there."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from planner.mesh import read_solid
from planner.output.paper_files.page_size import SIZES
from planner.output.pattern.pattern_files import write_patterns
from tests.output.pattern.worked import patterns


def test_a_run_replaces_the_one_before(tmp_path: Path) -> None:
    """Two pads of one part get files of their own; the second run has one pad; a person's file stays."""
    found = replace(patterns(), patterns=patterns().patterns[:2])
    write_patterns(found, tmp_path / "out", SIZES["a4"])
    (tmp_path / "out" / "mine.txt").write_text("mine", encoding="utf-8")
    first = sorted(path.name for path in (tmp_path / "out").iterdir())
    pdf, files = write_patterns(replace(found, patterns=found.patterns[:1]), tmp_path / "out", SIZES["a4"])

    assert [name for name in first if name.startswith("padding")] == [
        "padding-cuff-2.dxf",
        "padding-cuff-2.svg",
        "padding-cuff.dxf",
        "padding-cuff.svg",
    ]
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == [
        "buck-cuff.stl",
        "mine.txt",
        "padding-cuff.dxf",
        "padding-cuff.svg",
        "patterns.json",
        "patterns.pdf",
    ]
    assert pdf.read_bytes().startswith(b"%PDF")
    assert files[0].buck is not None
    buck = read_solid(files[0].buck, name="buck", unit="mm")
    assert buck.sound  # watertight by the check that every mesh passes
    assert not buck.healed

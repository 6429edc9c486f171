"""In a terminal every pattern is told in a few lines."""

from __future__ import annotations

from pathlib import Path

from planner.output.pattern.pattern_files import PatternFiles
from planner.output.pattern.pattern_lines import pattern_lines
from tests.output.pattern.worked import patterns


def test_lines_are_short_and_warn_of_heat() -> None:
    """At most 80 columns; the hold comes first with its remedy."""
    lines = list(pattern_lines(patterns(), Path("p.pdf"), [PatternFiles(buck=Path("b.stl"))] * 4))
    text = " ".join(" ".join(lines).split())

    assert max(map(len, lines)) <= 80
    assert lines[0].startswith("HOLD")
    assert "state skin_toward, or" in text
    assert "never on the person" in text

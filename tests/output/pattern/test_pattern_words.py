"""What is said of a pattern holds its numbers."""

from __future__ import annotations

from planner.output.pattern.pattern_words import BUCK_CAUTION, mark_words, method_words, size_words
from tests.output.pattern.worked import patterns


def test_exact_and_stretched_are_told_apart() -> None:
    """A pipe is exact, a bowl says its stretch in percent and mm; crosses are explained where there are any."""
    pipe, plate, bowl, _ = patterns().patterns
    assert pipe.flat is not None
    assert plate.flat is not None
    assert bowl.flat is not None

    assert method_words(pipe.flat) == "exact: the surface is part of a cylinder"
    assert "%" in method_words(bowl.flat)
    assert " mm" in method_words(bowl.flat)
    assert "92.7" in size_words(pipe, pipe.flat)  # π (31 - 1.5), the circle's half
    assert [bool(mark_words(one)) for one in (pipe.flat, plate.flat)] == [False, True]
    assert "never on the person" in BUCK_CAUTION

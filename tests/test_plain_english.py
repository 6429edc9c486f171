"""Plain English: phrases that read as translated, or that a person would have to guess at, stay out."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
BANNED = (
    r"of matter\b",
    r"\bgoes once\b",
    r"\bserves to\b",
    r"\b(bears|bear) [0-9.]+ ?mm\b",
    r"\bbears [^.]*\b(or less|or more)\b",
    r"\blying bore",
    r"\bplays? with failures\b",
    r"\bof 100 plays\b",
    r"\bplayed with failures\b",
    r"\bin no total\b",
    r"\bwords? of care\b",
    r"\bfor want of\b",
    r"\bnothing stands out\b",
    r"\bwhole or parted\b",
    r"\b(min|h|hours?) of motion\b",
    r"\bprinted so\b",
    r"\bawkward range\b",
    r"\bat its best turn\b",
    r"\bneeds? no word\b",
    r"\bfor ever\b",
    r"\ba wait for nothing\b",
    r"\bparted in two\b",
    r"\breadiness to warp\b",
    r"\bno wall, and no fault\b",
    r"\bbe there longer\b",
    r"\bare told as drawn\b",
    r"\bnothing tells (it|where)\b",
    r"\bis no question\b",
    r"\bonly if: [A-Z]",
    r"\bcomes on top\b",
    r"\b(judged|planned|begun|begins?|beginning|drawn|cut|written?|laid|placed|weighed|solved) anew\b",
    r"\bwhere they grip least\b",
)
"""Patterns; each stood in a sentence that a native reader stumbled over."""
WHERE = (
    "planner/**/*.py",
    "planner/**/*.j2",
    "planner/**/*.js",
    "planner/**/*.html",
    "profiles/**/*.toml",
    "tests/**/*.py",
    "*.md",
)


def _texts() -> list[tuple[str, str]]:
    """Return every text file of ours that somebody reads, by its path."""
    return [
        (path.relative_to(ROOT).as_posix(), path.read_text(encoding="utf-8"))
        for pattern in WHERE
        for path in sorted(ROOT.glob(pattern))
        if "vendored" not in path.parts and path != Path(__file__)
    ]


@pytest.mark.parametrize("phrase", BANNED)
def test_no_text_uses_a_banned_phrase(phrase: str) -> None:
    """Neither a sentence of the program nor a docstring, a profile or a document; line breaks count as spaces."""
    found = [
        f"{path}: {match[0]}"
        for path, text in _texts()
        for match in re.finditer(phrase.replace(" ", r"\s+"), text, re.IGNORECASE)
    ]

    assert found == []

"""Small pieces of every sentence: lists and counts read as a person writes them, and each list is made in one place."""

from __future__ import annotations

import re
from pathlib import Path

from planner.phrases import listed, plural

DATED_BY_HAND = "%d %b"
"""It writes 05 Dec where ``moment`` writes 5 Dec."""
JOINED_BY_HAND = re.compile(r"""["'] (?:and|or) ["']\.join\(""")
"""Three names joined so read "a and b and c"."""
OF_CLAUSES = {
    "rules/questions/if_clause.py",
    "job/reference/record_keys.py",
    "rules/fit/mesh_units.py",
    "size/unit_slip.py",
}
"""Files that join clauses, types or a pair of readings, not names."""


def test_counts_agree_with_their_things() -> None:
    """One of a thing is singular; s and dy have their own plural."""
    assert [plural(n, "plate") for n in (0, 1, 2)] == ["0 plates", "1 plate", "2 plates"]
    assert (plural(2, "guess"), plural(3, "body")) == ("2 guesses", "3 bodies")


def test_lists_read_as_sentences_do() -> None:
    """Commas, and one "and" before the last; an empty list says so, and "1 more" is never told instead of its name."""
    assert [listed("abc"[:n]) for n in range(4)] == ["none", "a", "a and b", "a, b and c"]
    assert [listed("abcd"[:n], most_n=2) for n in (3, 4)] == ["a, b and c", "a, b and 2 more"]


def test_no_other_file_joins_names_by_hand() -> None:
    """Names in a sentence go through ``listed``."""
    planner = Path(__file__).parents[1] / "planner"
    found = {
        path.relative_to(planner).as_posix()
        for path in planner.rglob("*.py")
        if JOINED_BY_HAND.search(path.read_text(encoding="utf-8"))
    }

    assert found <= OF_CLAUSES


def test_no_other_file_writes_days_by_hand() -> None:
    """Days in a sentence look alike everywhere."""
    planner = Path(__file__).parents[1] / "planner"

    assert [path.name for path in planner.rglob("*.py") if DATED_BY_HAND in path.read_text(encoding="utf-8")] == []

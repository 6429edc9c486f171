"""Every number that is shipped says where it comes from: a standard, a paper, or that it has no source."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[1]
PUBLISHED = re.compile(r"\bdoi 10\.|\b(19|20)\d\d\b|\bISO \d|\bASME B|\bANSI|\d+ CFR \d|Snyder et al")
"""A paper by year or DOI, or a standard by its number."""
OWNED_UP = re.compile(
    r"common practice|from memory|\bgeometry\b|prices? of ours|stamped on|nominal size|survey|starting value"
)
"""What says by itself that no publication stands behind it."""
NOBODY = re.compile(
    r"wiki|blog|excerpt|vendor|dealer|retailer|catalogue|brochure|data ?sheet|trade name|brand|forum|thread on|github|youtube"
    r"|\.(com|net|org)\b",
    re.IGNORECASE,
)
"""Shops, makers, networks and private pages are no sources."""


def _numbers(value: Any, where: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield every table with a source, and where it stands."""
    if isinstance(value, dict):
        if "source" in value:
            yield where, value
        for key, inner in value.items():
            yield from _numbers(inner, f"{where} {key}")
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _numbers(inner, f"{where}[{index}]")


def _shipped() -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield every table with a source of every shipped profile; a rule's own row says what it reads, in words."""
    for path in sorted((ROOT / "profiles").rglob("*.toml")):
        for where, row in _numbers(tomllib.loads(path.read_text(encoding="utf-8")), path.relative_to(ROOT).as_posix()):
            if "compares" not in row:
                yield where, row


def test_every_source_is_published_or_says_that_it_is_not() -> None:
    """Not one of some 300 numbers rests on a text that nobody could look up."""
    found = list(_shipped())
    silent = [
        where
        for where, row in found
        if not (PUBLISHED.search(row["source"]) or OWNED_UP.search(row["source"]) or row.get("kind") == "derived")
    ]

    assert len(found) > 200
    assert silent == []


def test_the_kind_of_a_number_agrees_with_its_source() -> None:
    """What counts as measured names a publication, what comes from memory says so, and so does common practice."""
    needs = {"measured": PUBLISHED, "memory": re.compile("from memory"), "common-practice": OWNED_UP}
    wrong = [
        where for where, row in _shipped() if row.get("kind") in needs and not needs[row["kind"]].search(row["source"])
    ]

    assert wrong == []


def test_no_shop_maker_or_private_page_is_a_source() -> None:
    """Neither in the profiles nor in what a finding, a paper or a test names as its source."""
    texts = [f"{where}: {row['source']}" for where, row in _shipped()]
    for folder in ("planner", "tests"):
        for path in sorted((ROOT / folder).rglob("*.py")):
            if path != Path(__file__):
                lines = path.read_text(encoding="utf-8").splitlines()
                texts += [f"{path.relative_to(ROOT)}: {line}" for line in lines if "source" in line]

    assert [text for text in texts if NOBODY.search(text.split(": ", 1)[1])] == []

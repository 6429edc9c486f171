"""The reference of keys as a terminal shows it."""

from __future__ import annotations

import io

from rich.console import Console

from planner.job import NEEDED, Key, KeyTable, Term
from planner.output.terminal.keys_text import MANY, show_keys, show_terms


def _table(name: str) -> KeyTable:
    """Return a table of two keys, one with a long meaning."""
    long = Key(name="brim_mm", takes="number", unit="mm", default="0", meaning="Width of the brim " + "as laid " * 20)
    needed = Key(name="path", takes="[x, y]", unit="", default=NEEDED, meaning="Where.")
    return KeyTable(name=name, heading=f"[{name}]", file="job.toml", about="About it.", keys=(long, needed))


def _shown(tables: list[KeyTable]) -> str:
    """Return what is printed."""
    console = Console(file=io.StringIO(), width=80)
    show_keys(console, tables)
    return console.file.getvalue()  # type: ignore[attr-defined,no-any-return]


def test_keys_are_shown_with_their_facts_in_80_columns() -> None:
    """Brackets of headings and types are printed, not taken for markup."""
    shown = _shown([_table("size")])

    assert "[size]  job.toml" in shown
    assert "brim_mm  number in mm, left out: 0" in shown
    assert "path  [x, y], needed" in shown
    assert max(map(len, shown.splitlines())) <= 80


def test_many_tables_end_with_their_names() -> None:
    """A few do not."""
    names = [f"table{k}" for k in range(MANY + 1)]

    assert ", ".join(names)[:60] in " ".join(_shown([_table(name) for name in names]).split())
    assert "One table alone" not in _shown([_table(name) for name in names[:MANY]])


def test_terms_are_shown_with_their_meaning() -> None:
    """Each in a line of its own."""
    console = Console(file=io.StringIO(), width=80)
    show_terms(console, [Term(word="brim", also=(), means="a flat rim")])

    assert console.file.getvalue() == "brim\n    a flat rim.\n"  # type: ignore[attr-defined]

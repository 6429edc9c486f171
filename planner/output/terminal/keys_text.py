"""The reference of keys in a terminal: one table of a file after another, 80 columns wide."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from rich.console import Console
from rich.markup import escape

from planner.job import NEEDED, Key, KeyTable, Term
from planner.output.terminal.terminal import WIDTH

MANY = 6
"""More tables than this end with a line of their names, as the end is what stands on the screen."""


def show_keys(console: Console, tables: Sequence[KeyTable]) -> None:
    """Print tables of keys: each key with what it takes, and its meaning below."""
    for table in tables:
        console.print(f"[bold]{escape(table.heading)}[/]  {escape(table.file)}")
        console.print(escape(_filled(table.about, "  ")))
        for key in table.keys:
            named = escape(_filled(f"{key.name}  {_facts(key)}", "  ", hanging="      "))
            console.print(named.replace(escape(key.name), f"[bold]{escape(key.name)}[/]", 1))
            console.print(escape(_filled(key.meaning, "      ")))
        console.print()
    if len(tables) > MANY:
        names = ", ".join(table.name for table in tables)
        console.print(escape(_filled(f"One table alone: fitwright keys NAME, where NAME is one of {names}.", "")))


def show_terms(console: Console, terms: Sequence[Term]) -> None:
    """Print the glossary."""
    for term in terms:
        console.print(f"[bold]{escape(term.word)}[/]")
        console.print(escape(_filled(f"{term.means}.", "    ")))


def _facts(key: Key) -> str:
    """Return what a key takes, its unit, and what holds where it is left out.

    >>> _facts(Key(name="brim_mm", takes="number", unit="mm", default="0", meaning="Width."))
    'number in mm, left out: 0'
    """
    unit = f" in {key.unit}" if key.unit else ""
    if key.default == NEEDED:
        return f"{key.takes}{unit}, needed"
    return f"{key.takes}{unit}, left out: {key.default}" if key.default else f"{key.takes}{unit}"


def _filled(text: str, indent: str, hanging: str = "") -> str:
    """Return a text broken to the width of a terminal, numbers kept with their percent sign."""
    kept = text.replace(" %", "\u00a0%")
    return textwrap.fill(
        kept, WIDTH, initial_indent=indent, subsequent_indent=hanging or indent, break_on_hyphens=False
    )

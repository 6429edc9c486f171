"""Text that fits a screen: entries wrapped between words, and sections cut to a number of lines.

What does not fit is counted, never dropped in silence.
"""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass

WIDTH = 80
ENTRY_LINES = 3
"""An entry of a short list takes at most this many lines for what was found, and as many for what to do."""
CUT = " …"


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A titled list of entries, each of one or more lines; ``least_n`` entries stay whatever the room is."""

    title: str
    entries: tuple[tuple[str, ...], ...]
    least_n: int = 1


def wrapped(text: str, *, first: str = "", rest: str = "", lines_n: int | None = None) -> tuple[str, ...]:
    """Return a text in lines of at most 80 columns, broken between words only, cut with "…" after ``lines_n``.

    A single word that is longer than a line stays whole on a line of its own.

    >>> wrapped("a long text", first="no    ", rest="      ")
    ('no    a long text',)
    """
    found = textwrap.wrap(
        text,
        width=WIDTH,
        initial_indent=first,
        subsequent_indent=rest,
        break_long_words=False,
        break_on_hyphens=False,
        max_lines=lines_n,
        placeholder=CUT,
    )
    return tuple(found) or (first.rstrip(),)


def in_room(sections: Sequence[Section], lines_n: int) -> list[str]:
    """Return sections as lines, at most ``lines_n`` where their least entries allow it.

    Each section gets its title and its least entries first; then the sections take turns, in order, each adding one
    entry, until nothing more fits. A section that is cut says how many entries are left.
    """
    shown = [min(section.least_n, len(section.entries)) for section in sections]
    growing = [k for k, section in enumerate(sections) if shown[k] < len(section.entries)]
    while growing:
        for k in tuple(growing):
            shown[k] += 1
            if _height(sections, shown) > lines_n:
                shown[k] -= 1
                growing.remove(k)
            elif shown[k] == len(sections[k].entries):
                growing.remove(k)
    return [line for section, n in zip(sections, shown, strict=True) for line in _lines(section, n)]


def _lines(section: Section, shown_n: int) -> list[str]:
    """Return a section's lines with its first entries, a blank line before its title; nothing where it is empty."""
    if not section.entries:
        return []
    left = len(section.entries) - shown_n
    more = [f"      and {left} more"] if left else []
    return ["", section.title, *(line for entry in section.entries[:shown_n] for line in entry), *more]


def _height(sections: Sequence[Section], shown: Sequence[int]) -> int:
    """Return how many lines the sections take."""
    return sum(len(_lines(section, n)) for section, n in zip(sections, shown, strict=True))

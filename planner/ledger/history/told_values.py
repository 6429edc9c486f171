"""Amounts and words that an event may tell: what cannot be is refused before the ledger looks at it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import isfinite

from planner.errors import LedgerError
from planner.ledger.event import Event

GRAMS_MOST = 100_000.0
"""No spool is heavier, and no print; more would feed every plate that is ever planned."""
PIECES_MOST = 1_000_000.0
LEAST = 1e-3
"""What is told in grams or pieces, and is nearer to nothing, is a slip."""
HOURS_MOST = 10_000.0
"""No print lasts longer: more than a year."""
TEXT_MOST_N = 2_000
"""Longer texts are a file that went the wrong way."""
YEARS = 1900, 2199
"""What is told of other years is a slip."""
JOINERS = "\u200c\u200d\n\t"
"""Signs without a picture of their own that words of some languages, and notes of several lines, need."""
NEEDED = {"note": "text", "blocked": "why", "failed": "cause", "measured": "material"}
"""What an event of a kind must say."""
FROM_FILES = ("job", "plates", "person", "printer")
"""Events whose texts come from files that were read, and checked there."""


def refuse_impossible(event: Event) -> None:
    """Refuse an amount or a word that cannot be.

    Raises
    ------
    LedgerError
        Where an amount is infinite, or no spool or shelf holds it; where a text is blank or cannot be printed.
    """
    for key, option, least, most in (
        ("n", "N", -PIECES_MOST, PIECES_MOST),
        ("left_g", "G", 0.0, GRAMS_MOST),
        ("used_g", "--grams", 0.0, GRAMS_MOST),
    ):
        _amount(event.body.get(key), option, least, most)
    for row in event.body.get("fed", ()):
        _amount(row.get("used_g"), "--spool", 0.0, GRAMS_MOST)
    ran_s = event.body.get("ran_s")
    if ran_s is not None and not 0.0 <= ran_s <= HOURS_MOST * 3600.0:
        todo = f"write up to {HOURS_MOST:g} h, such as 3h20"
        raise LedgerError(where=event.subject, wrong="no print runs for so long", todo=todo)
    if not YEARS[0] <= event.at.year <= YEARS[1]:
        wrong, todo = f"the year {event.at.year} cannot be", "write it as 2026-12-01T18:30, or leave it out for now"
        raise LedgerError(where="--when", wrong=wrong, todo=todo)
    needed = NEEDED.get(event.kind)
    if needed and not event.body.get(needed):
        raise LedgerError(where=event.kind, wrong=f"its {needed} is empty", todo="say it in a few words")
    if not event.subject.strip():
        raise LedgerError(where=event.kind, wrong="it is about nothing", todo="name the plate, spool or item")
    for text in () if event.kind in FROM_FILES else _texts([event.subject, event.body]):
        _said(text, event.kind)


def _amount(number: object, option: str, least: float, most: float) -> None:
    """Refuse a number that is none, such as infinite grams."""
    if not isinstance(number, int | float):
        return
    if not (isinstance(number, int) or isfinite(number)):
        raise LedgerError(where=option, wrong=f"{number} is no amount", todo="write a number, such as 12.5")
    if not least <= number <= most or 0.0 < abs(number) < LEAST:
        raise LedgerError(
            where=option, wrong=f"{number:g} cannot be", todo=f"write 0, or a number from {LEAST:g} to {most:g}"
        )


def _texts(value: object) -> Iterator[str]:
    """Yield every text in what an event tells."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            yield from _texts([key, inner])
    elif isinstance(value, Sequence):
        for inner in value:
            yield from _texts(inner)


def _said(text: str, kind: str) -> None:
    """Refuse a text that says nothing, too much, or what no paper can show."""
    if text and not text.strip():
        raise LedgerError(where=kind, wrong="a text is blank", todo="write what it says, or leave it out")
    if len(text) > TEXT_MOST_N:
        raise LedgerError(
            where=kind, wrong=f"a text of {len(text)} letters is too long", todo=f"write {TEXT_MOST_N} at most"
        )
    for letter in text:
        if not letter.isprintable() and letter not in JOINERS:
            wrong = f"a text holds U+{ord(letter):04X}, which cannot be printed"
            raise LedgerError(where=kind, wrong=wrong, todo="take that sign out")

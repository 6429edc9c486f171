"""The questions of ``fitwright start``: asked in the terminal, or answered by a file."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path

from rich.console import Console

from planner.assembly import Doubt
from planner.errors import CommandError
from planner.job import read_toml

OPEN = "-"
"""What leaves a question open."""


def answers_in(path: Path) -> dict[str, object]:
    """Return the answers in a file of ``id = "option"`` lines; an id with a dot may stand in quotes or without.

    Raises
    ------
    CommandError
        The file cannot be read, or holds something else than lines of text.
    """
    table = read_toml(path, CommandError)
    found = dict(_dotted(table.raw))
    for ident, value in found.items():
        if not isinstance(value, str):
            table.refuse(ident, "an answer is the name of an option", f'write {ident} = "nothing", or another option')
    return found


def _dotted(table: Mapping[str, object], before: str = "") -> Iterator[tuple[str, object]]:
    """Yield the keys of a table with their values; a dot in a bare key, which TOML reads as a table, is a dot again."""
    for key, value in table.items():
        if isinstance(value, Mapping):
            yield from _dotted(value, f"{before}{key}.")
        else:
            yield before + key, value


def asked(doubts: Sequence[Doubt], picture: Callable[[Doubt], Path], read: Callable[[], str]) -> dict[str, object]:
    """Ask every question on stderr, and return the answers; a question that is left open is not among them.

    Parameters
    ----------
    picture
        Writes the picture of a question and returns its path.
    read
        Returns one line that was typed; empty at the end of all input, which leaves the rest open.
    """
    say = Console(stderr=True, highlight=False, soft_wrap=True).print
    found: dict[str, object] = {}
    for number, doubt in enumerate(doubts, 1):
        say(f"\n{number} of {len(doubts)}  {doubt.text}", markup=False)
        say(f"   picture: {picture(doubt)}", markup=False)
        for place, option in enumerate(doubt.options, 1):
            say(f"   {place}  {option.text} ({100 * option.share:.0f} %)", markup=False)
        say(f"   {OPEN}  leave it open", markup=False)
        choice, ended = _choice(doubt, read, say)
        if ended:
            break
        if choice is not None:
            found[doubt.id] = choice
    return found


def _choice(doubt: Doubt, read: Callable[[], str], say: Callable[..., None]) -> tuple[str | None, bool]:
    """Return the option chosen, None where it is left open, and whether all input has ended; ask until it is clear."""
    names = [option.name for option in doubt.options]
    while True:
        say(f"   answer [{names.index(doubt.default) + 1}]: ", end="", markup=False)
        line = read()
        word = line.strip()
        if not line:
            return None, True
        if word in ("", *names):
            return word or doubt.default, False
        if word == OPEN:
            return None, False
        if word.isdecimal() and 1 <= int(word) <= len(names):
            return names[int(word) - 1], False
        say(f"   give a number from 1 to {len(names)}, {OPEN}, or press Enter for the likeliest", markup=False)

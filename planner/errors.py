"""Everything that can be wrong with what a person gave us, as one family.

::

    FitwrightError            one sentence, exit code 2
      JobError                a job file: missing, unreadable, or a key that cannot be
      ProfileError            a printer, material, settings or hardware profile
      MeshError               a mesh file that cannot be read as a solid
      ProgramError            a G-code program that cannot be read
      RecordError             a record.toml that cannot be read, or lifts what is not there
      LedgerError             a ledger that cannot be opened, or an event that cannot be
      PhotoError              a photo that cannot be read, or in which the card is not found
      CommandError            the command line asks for something that cannot be done

A finding (``finding.py``) is different: the input was understood, and the answer may be bad news.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass

LISTED_N = 30  # names in one refusal: more would hide what it says


@dataclass(kw_only=True, eq=False)  # not frozen: Python writes __traceback__ on it
class FitwrightError(Exception):
    """One clear sentence: where, what is wrong, what to do.

    Parameters
    ----------
    where
        File, line or key, as the person would name it: ``"job.toml: [[part]] 3 count"``.
    wrong
        What is wrong, with the value that was found.
    todo
        What to do about it.
    """

    where: str
    wrong: str
    todo: str

    def __str__(self) -> str:
        told = f"{_plain(self.where, 300)}: {_plain(self.wrong, 300)}; {_plain(self.todo, 2000)}"
        return told if told.endswith("?") else told + "."


def _plain(text: str, letters_most: int) -> str:
    """Return a text on one line, without what steers a terminal, and cut in the middle where it is endless.

    >>> _plain("a" + chr(27) + "[31mb", 99)
    'a\ufffd[31mb'
    """
    line = "".join(letter if letter.isprintable() else " " if letter.isspace() else "\ufffd" for letter in text)
    return line if len(line) <= letters_most else f"{line[: letters_most // 2]}…{line[-letters_most // 4 :]}"


class JobError(FitwrightError):
    """A job file is missing, unreadable, or holds a key or value that cannot be."""


class ProfileError(FitwrightError):
    """A printer, material, settings or hardware profile is missing or cannot be."""


class MeshError(FitwrightError):
    """A mesh file cannot be read as matter with a surface."""


class ProgramError(FitwrightError):
    """A G-code program cannot be read, or prints nothing."""


class RecordError(FitwrightError):
    """A record of a device cannot be read, or holds a value that cannot be."""


class LedgerError(FitwrightError):
    """A ledger cannot be opened or read, or an event tells what cannot be."""


class PhotoError(FitwrightError):
    """A photo that cannot be read, or in which the card is not found."""


class CommandError(FitwrightError):
    """The command line asks for something that cannot be done."""


def nearest(word: str, known: Iterable[str], *, alike_ratio: float = 0.6) -> str:
    """Return ``"did you mean 'x'?"`` for the nearest known word, or the list of known ones, cut where it is long.

    >>> nearest("cout", ["count", "colour"])
    "did you mean 'count'?"
    >>> nearest("zzz", ["b", "a"])
    'known here: a, b'
    """
    names = sorted(known)
    close = difflib.get_close_matches(word, names, n=1, cutoff=alike_ratio)
    if close:
        return f"did you mean '{close[0]}'?"
    more = f" and {len(names) - LISTED_N} more" if len(names) > LISTED_N else ""
    return "known here: " + ", ".join(names[:LISTED_N]) + more

"""Names of parts and jobs as names of files: letters of every script with their marks, nothing that trips a shell."""

from __future__ import annotations

import unicodedata
from collections.abc import Collection

LONGEST_BYTES = 120
"""Of one name: systems take 255 bytes, and a size, a side and a mark of what is being written come on top."""
JOINERS = "\u200c\u200d"
"""Letters take other forms beside them (Unicode Standard, 23.2)."""


def file_word(name: str, kept: str = "-_.") -> str:
    """Return a name as part of a file's name: letters, digits, marks and what is ``kept``, in Unicode's form NFC.

    >>> file_word("front cover/2"), file_word("हाथ"), file_word("..")
    ('front-cover-2', 'हाथ', '')
    """
    letters = (one if _stays(one, kept) else "-" for one in unicodedata.normalize("NFC", name))
    word, left = "", LONGEST_BYTES
    for one in letters:
        left -= len(one.encode())
        if left < 0:
            break
        word += one
    return word.strip(" .")


def taken(name: str, names: Collection[str]) -> bool:
    """Return whether a file's name is taken already, also where capitals are not told from small letters.

    >>> taken("Jaw.stl", ["jaw.stl"])
    True
    """
    return name.casefold() in {one.casefold() for one in names}


def _stays(letter: str, kept: str) -> bool:
    """Return whether a letter may stand in a file's name."""
    return letter.isalnum() or letter in kept or letter in JOINERS or unicodedata.category(letter).startswith("M")

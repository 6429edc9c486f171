"""The glossary: terms of the trade, each explained once, from ``profiles/glossary.toml``."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from planner.errors import ProfileError
from planner.job.file.toml_file import read_toml
from planner.job.profiles.shipped import shipped


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A term, the other forms in which texts use it, and what it means."""

    word: str
    also: tuple[str, ...]
    means: str

    def stands_in(self, text: str) -> bool:
        """Return whether a text uses the term, in the plural too, whatever its case."""
        words = "|".join(re.escape(word) for word in (self.word, *self.also))
        return re.search(rf"(?<![\w-])(?:{words})(?:s|es)?(?![\w-])", text, re.IGNORECASE) is not None


@cache
def read_glossary() -> tuple[Term, ...]:
    """Read the glossary, in alphabetical order."""
    table = read_toml(shipped("profiles") / "glossary.toml", ProfileError)
    terms = []
    for word in sorted(table.raw):
        row = table.table(word)
        terms.append(Term(word=word, also=row.texts("also"), means=row.text("means")))
        row.done()
    return tuple(terms)


def terms_in(text: str) -> Sequence[Term]:
    """Return the terms that a text uses.

    >>> [term.word for term in terms_in("Two bores print undersize; ream them. No holding.")]
    ['ream', 'undersize']
    """
    return [term for term in read_glossary() if term.stands_in(text)]

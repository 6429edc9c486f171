"""Which papers speak the family's language, said once by the command that writes them."""

from __future__ import annotations

from babel import Locale

from planner.output.tongue import tongue_of
from planner.phrases import listed

SPEAKING = ("labels", "finishing", "cut", "bags", "assembly", "test", "hand-over")
"""The papers that speak the family's language, by the stems of their files; a test holds them to it."""


def language_words(code: str) -> str:
    """Return a sentence about the papers in another language than English; empty where all are in English.

    >>> language_words("en")
    ''
    >>> language_words("de").split(", translated ")[1]
    'by a machine; safety texts keep their English. Other papers: English'
    """
    if code == "en":
        return ""
    tongue, name = tongue_of(code), Locale(code).get_language_name("en")
    by = ", translated by a machine; safety texts keep their English" if tongue.keeps_english else ""
    papers = listed(f"{paper}.html" for paper in SPEAKING)
    return f"in {name}: {papers}{by}. Other papers: English"

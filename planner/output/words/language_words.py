"""What papers in the family's language keep in English, said once by the command that writes them."""

from __future__ import annotations

from babel import Locale

from planner.output.tongue import tongue_of


def language_words(code: str) -> str:
    """Return a sentence about papers in another language than English; empty for English.

    >>> language_words("en")
    ''
    >>> language_words("de")
    'papers in German, translated by a machine; warnings also stand in English. The record stays English'
    """
    if code == "en":
        return ""
    tongue, name = tongue_of(code), Locale(code).get_language_name("en")
    by = ", translated by a machine; warnings also stand in English" if tongue.keeps_english else ""
    return f"papers in {name}{by}. The record stays English"

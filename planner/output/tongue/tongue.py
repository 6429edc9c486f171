"""One language as papers speak it: messages, counts in their plural forms, days, lists, and numbers with their units.

Digits stay 0 to 9, and units stay SI symbols, in every language: a clinic reads them anywhere.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date
from functools import cache
from gettext import NullTranslations

from babel import Locale
from babel.dates import format_date
from babel.lists import format_list
from babel.numbers import get_decimal_symbol

from planner import phrases
from planner.output.tongue.catalogue import read_catalogue

ENGLISH_BELOW = "\u2028"
"""Parts a text from the same in English, which stands below it in small type."""
KEPT_LEFT_TO_RIGHT = "\u200e"
"""LEFT-TO-RIGHT MARK round a number with its unit: without it "12 g" turns round among Arabic letters (UAX 9, W7)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tongue:
    """A language. ``words`` are its messages by the English ones; ``signed_by`` the speaker who answers for them."""

    code: str
    words: NullTranslations
    signed_by: str = ""

    @property
    def leftward(self) -> bool:
        """Whether it is written from right to left."""
        return Locale(self.code).text_direction == "rtl"

    @property
    def keeps_english(self) -> bool:
        """Whether English stands beside what a person's safety hangs on."""
        return self.code != "en" and not self.signed_by

    def say(self, message: str, **values: str) -> str:
        """Return a message in this language with its values put in."""
        return self.words.gettext(message).format(**values)

    def many(self, one: str, more: str, count: int, **values: str) -> str:
        """Return a message in the plural form that a count asks for; the count is ``n`` in it."""
        return self.words.ngettext(one, more, count).format(n=count, **values)

    def beside(self, said: Callable[[Tongue], str]) -> str:
        """Return what somebody's safety hangs on: in this language, and in English below until a speaker has signed."""
        return f"{said(self)}{ENGLISH_BELOW}{said(ENGLISH)}" if self.keeps_english else said(self)

    def number(self, text: str) -> str:
        """Return a number, as text with a point, with this language's decimal sign."""
        return text.replace(".", get_decimal_symbol(self.code))

    def amount(self, text: str) -> str:
        """Return a number with its unit, kept from left to right."""
        return self.kept(self.number(text))

    def kept(self, name: str) -> str:
        """Return a name of a part, a file or a standard, kept from left to right as it was written."""
        mark = KEPT_LEFT_TO_RIGHT if self.leftward else ""
        return f"{mark}{name}{mark}"

    def in_english(self, text: str) -> str:
        """Return a text that no catalogue holds, such as what a rule found: under another language in English type."""
        return text if self.code == "en" or not text else f"{ENGLISH_BELOW}{text}"

    def day(self, value: date) -> str:
        """Return a day: by ISO 8601 in English, for people in words elsewhere."""
        return value.isoformat() if self.code == "en" else format_date(value, "long", locale=self.code)

    def listed(self, names: Iterable[str]) -> str:
        """Return names as a list in words (Unicode CLDR's list patterns; English as everywhere in Fitwright)."""
        found = list(names)
        return phrases.listed(found) if self.code == "en" or not found else format_list(found, locale=self.code)


ENGLISH = Tongue(code="en", words=NullTranslations())


@cache
def tongue_of(code: str) -> Tongue:
    """Return a language by its ISO 639-1 code.

    >>> tongue_of("de").number("106.5"), tongue_of("ar").leftward, tongue_of("en") is ENGLISH
    ('106,5', True, True)
    """
    if code == "en":
        return ENGLISH
    catalogue = read_catalogue(code)
    return Tongue(code=code, words=catalogue.words, signed_by=catalogue.signed_by)

"""A language: its numbers, days, lists and plural forms, and English beside what a person's safety hangs on."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

import pytest

from planner.output.tongue import ENGLISH, ENGLISH_BELOW, tongue_of

DAY = date(2026, 12, 5)


@pytest.mark.parametrize(
    ("code", "number", "day", "three"),
    [
        ("en", "106.5", "2026-12-05", "a, b and c"),
        ("de", "106,5", "5. Dezember 2026", "a, b und c"),
        ("es", "106,5", "5 de diciembre de 2026", "a, b y c"),
        ("fr", "106,5", "5 décembre 2026", "a, b et c"),
        ("pt", "106,5", "5 de dezembro de 2026", "a, b e c"),
        ("ar", "106.5", "5 ديسمبر 2026", "a وb وc"),
        ("hi", "106.5", "5 दिसंबर 2026", "a, b और c"),
    ],
)
def test_numbers_days_and_lists_are_those_of_the_language(code: str, number: str, day: str, three: str) -> None:
    """As Unicode CLDR has them (decimal sign, long date, list of words); digits stay 0 to 9 everywhere."""
    tongue = tongue_of(code)

    assert tongue.number("106.5") == number
    assert tongue.day(DAY) == day
    assert tongue.listed(["a", "b", "c"]).replace(", और", " और") == three  # releases of CLDR differ by this comma


def test_a_moment_has_its_weekday_in_the_language() -> None:
    """5 December 2026 is a Saturday; hours are 00 to 23 everywhere, as ISO 8601 has them."""
    told = [tongue_of(code).moment(datetime(2026, 12, 5, 17, 30)) for code in ("en", "de", "fr")]

    assert told == ["Sat 5 Dec 17:30", "Sa., 5. Dez. 17:30", "sam. 5 déc. 17:30"]
    assert tongue_of("de").moment(None) == "keine Zeit gefunden"


def test_arabic_has_six_plural_forms() -> None:
    """Zero, one, two, 3 to 10, 11 to 99, 100 (UTS 35, language plural rules): the noun changes with each."""
    many = tongue_of("ar").many
    told = [many("{n} month", "{n} months", n) for n in (0, 1, 2, 3, 10, 11, 99, 100, 103)]

    assert told == [
        "0 شهر",
        "شهر واحد",
        "شهرين",
        "3 أشهر",
        "10 أشهر",
        "11 شهرًا",
        "99 شهرًا",
        "100 شهر",
        "103 أشهر",
    ]


def test_english_stands_beside_until_a_speaker_signs() -> None:
    """Unsigned: both, parted by one sign. Signed: the language alone. English: itself."""
    german = tongue_of("de")
    english = "It is for the left side only."

    assert german.beside(lambda t: t.say("It is for the left side only.")).split(ENGLISH_BELOW)[1] == english
    signed = replace(german, signed_by="clinician")
    assert signed.beside(lambda t: t.say("It is for the left side only.")) == "Es ist nur für die linke Seite."
    assert ENGLISH.beside(lambda t: t.say("It is for the left side only.")) == english

"""Numbers in words: every one with its unit, and what is not known is withheld."""

from __future__ import annotations

from datetime import datetime

import pytest

from planner.finding import Verdict
from planner.layers import Amount
from planner.output.words.wording import SIGNS, VERDICTS, duration, grams, hours, money, size
from planner.phrases import moment


@pytest.mark.parametrize(("seconds", "words"), [(29.0, "0 min"), (3569.0, "59 min"), (3571.0, "1 h 00 min")])
def test_minutes_become_hours_at_sixty(seconds: float, words: str) -> None:
    """Rounded to the minute first, so that no duration reads 60 min."""
    assert duration(seconds) == words


def test_every_number_has_its_unit() -> None:
    """Hours, grams, money and lengths carry their unit, ranges too."""
    assert hours(Amount(value=7200.0, low=3600.0, high=10800.0)) == "2.0 h (1.0 to 3.0 h)"
    assert grams(9.96) == "10.0 g"
    assert money(1.005, "EUR").endswith(" EUR")
    assert size((1.0, 2.0, 3.0)) == "1.0 × 2.0 × 3.0 mm"


def test_what_is_not_known_is_withheld() -> None:
    """No number is made up for a mass, a price or a day that is not known."""
    assert (grams(None), money(None, "EUR"), moment(None)) == ("withheld", "withheld", "no time found")
    assert moment(datetime(2026, 2, 3, 4, 5)) == "Tue 3 Feb 04:05"


def test_every_verdict_has_words_and_a_sign_of_its_own() -> None:
    """Colour is never alone: four words and four signs, all different."""
    assert set(VERDICTS) == set(SIGNS) == set(Verdict)
    assert len(set(SIGNS.values())) == len({words for words, _ in VERDICTS.values()}) == len(Verdict)

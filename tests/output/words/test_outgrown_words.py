"""When a device is outgrown, in words: early ends rounded down, late ends up, and what is missing is asked for."""

from __future__ import annotations

from planner.layers import Amount
from planner.output.words.outgrown_words import outgrown_words, span_words, step_words
from planner.plan import NextSize
from planner.size import Outgrown

ONE = Outgrown(
    measure="girth",
    known="months",
    room_mm=4.0,
    next_percent=104.0,
    earliest_months=3.5,
    latest_months=9.2,
    measured="2026-11-01",
)


def test_the_span_is_rounded_outward() -> None:
    """Three and a half months are three, nine and a bit are ten; the day to measure again is that of the early end."""
    assert outgrown_words(ONE) == (
        "girth has 4.0 mm of room: used up 3 to 10 months after it was measured; measure again by 2027-01-31"
    )
    late = Outgrown(measure="g", known="months", room_mm=4.0, next_percent=104.0, earliest_months=3.5)
    assert span_words(late) == "used up 3 months at the earliest after it was measured"


def test_what_is_missing_is_asked_for() -> None:
    """An age, a table; and no room at all is said first."""
    for known, said in (("age", "recipient_age_years"), ("table", "`body`"), ("small", "no room left to grow")):
        assert said in outgrown_words(Outgrown(measure="g", known=known, room_mm=1.0, next_percent=101.0))  # type: ignore[arg-type]


def test_the_step_says_what_it_keeps_and_takes() -> None:
    """Next size, whether it works, what is kept and anew, grams and money."""
    amount = Amount(value=12.0, low=10.0, high=14.0)
    step = NextSize(
        outgrown=(ONE,),
        percent=104.0,
        works=False,
        nearest_percent=103.2,
        kept=("screw",),
        anew=("a", "strap"),
        mass_g=amount,
        cost=amount,
    )
    text = " ".join(step_words(step, "EUR"))

    assert "Next size: 104.0 %. It does not work there as it is; the nearest size that works is 103.2 %." in text
    assert "Kept, if sound: screw. Anew: a and strap." in text
    assert "The step takes 10 to 14 g of filament, 10.00 to 14.00 EUR." in text

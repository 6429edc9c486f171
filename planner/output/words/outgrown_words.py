"""When the device is outgrown, in words: for the report, the hand-over sheet and the terminal."""

from __future__ import annotations

from math import ceil, floor

from planner.output.tongue import ENGLISH, Tongue
from planner.output.words.wording import money
from planner.phrases import listed
from planner.plan import NextSize
from planner.size import Outgrown

NO_LIMB = "Tables of many children, not of this one: measuring again decides."


def outgrown_words(one: Outgrown, tongue: Tongue = ENGLISH) -> str:
    """Return when one measure leaves no room any more, or what is missing to tell.

    >>> outgrown_words(Outgrown(measure="cuff", known="grown", room_mm=2.0, next_percent=100.0))
    'cuff has 2.0 mm of room. Grown-ups do not grow out of it, but bodies change: measure again every year'
    """
    if one.known == "small":
        return tongue.say("{measure} has no room left to grow: measure again", measure=one.measure)
    room = tongue.amount(f"{one.room_mm:.1f} mm")
    start = tongue.say("{measure} has {room} of room", measure=one.measure, room=room)
    if one.known == "grown":
        after = tongue.say("Grown-ups do not grow out of it, but bodies change: measure again every year")
        return f"{start}. {after}"
    if one.known == "age":
        return f"{start}. State recipient_age_years to learn for how long"
    if one.known == "table":
        return f"{start}. No table of growth fits this measure: name one by `body`, or measure again every 3 months"
    return f"{start}: {span_words(one, tongue)}"


def span_words(one: Outgrown, tongue: Tongue = ENGLISH) -> str:
    """Return the span, its early end rounded down and its late end up, and the day by which to measure again."""
    if one.earliest_months is None:
        return tongue.say("the tables of growth end before it is used up")
    low = floor(one.earliest_months)
    if one.latest_months:
        high = ceil(one.latest_months)
        told = tongue.many(
            "used up {low} to {n} month after it was measured",
            "used up {low} to {n} months after it was measured",
            high,
            low=str(low),
        )
    else:
        told = tongue.many(
            "used up {n} month at the earliest after it was measured",
            "used up {n} months at the earliest after it was measured",
            low,
        )
    day = one.day_after(low)
    return told if day is None else f"{told}; {tongue.say('measure again by {day}', day=tongue.day(day))}"


def step_words(step: NextSize, currency: str) -> tuple[str, ...]:
    """Return sentences: the next size, what can be kept, and what the step costs."""
    works = (
        "It works there, as far as size and fit tell."
        if step.works
        else "No size works before what stops it is settled."
        if step.nearest_percent is None
        else f"It does not work there as it is; the nearest size that works is {step.nearest_percent:.4g} %."
    )
    found = [f"Next size: {step.percent:.1f} %. {works}"]
    found.append(f"Kept, if sound: {listed(step.kept)}." if step.kept else "Nothing can be kept.")
    found.append(f"Anew: {listed(step.anew)}.")
    if step.mass_g is None:
        return (*found, "What the step takes is not known: a part has no mass.")
    grams = f"{step.mass_g.low:.0f} to {step.mass_g.high:.0f} g of filament"
    price = "" if step.cost is None else f", {step.cost.low:.2f} to {money(step.cost.high, currency)}"
    return (*found, f"The step takes {grams}{price}.")

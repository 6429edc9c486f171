"""Numbers and verdicts in plain words."""

from __future__ import annotations

from planner.finding import Verdict
from planner.layers import Amount
from planner.output.tongue import ENGLISH, Tongue
from planner.sourced import Sourced

VERDICTS = {
    Verdict.GO: ("Go", "It can be printed and assembled as it is."),
    Verdict.GO_WITH_WORK: ("Go, with work", "It works after the work listed here, such as drilling."),
    Verdict.HOLD: ("Hold", "Something is missing or contradictory that could change the answer."),
    Verdict.NO_GO: ("No go", "It cannot work at this size, on this printer, with this hardware."),
}
SIGNS = {Verdict.GO: "✓", Verdict.GO_WITH_WORK: "✎", Verdict.HOLD: "?", Verdict.NO_GO: "✕"}
"""A sign beside every verdict, so that colour is never alone."""


def duration(seconds: float) -> str:
    """Return hours and minutes.

    >>> duration(27600.0), duration(95.0)
    ('7 h 40 min', '2 min')
    """
    minutes = round(seconds / 60.0)
    return f"{minutes // 60} h {minutes % 60:02d} min" if minutes >= 60 else f"{minutes} min"


def hours(amount: Amount) -> str:
    """Return hours with their range, each with its unit.

    >>> hours(Amount(value=36000.0, low=25200.0, high=46800.0))
    '10.0 h (7.0 to 13.0 h)'
    """
    return f"{amount.value / 3600:.1f} h ({amount.low / 3600:.1f} to {amount.high / 3600:.1f} h)"


def grams(mass_g: float | None) -> str:
    """Return grams, or that they are withheld.

    >>> grams(186.4), grams(2.34), grams(None)
    ('186 g', '2.3 g', 'withheld')
    """
    if mass_g is None:
        return "withheld"
    return f"{mass_g:.0f} g" if mass_g >= 10 else f"{mass_g:.1f} g"


def money(value: float | None, currency: str) -> str:
    """Return an amount of money.

    >>> money(9.866, "EUR")
    '9.87 EUR'
    """
    return "withheld" if value is None else f"{value:.2f} {currency}"


def size(values: tuple[float, float, float]) -> str:
    """Return three lengths.

    >>> size((10.0, 20.25, 3.0))
    '10.0 × 20.2 × 3.0 mm'
    """
    return " × ".join(f"{value:.1f}" for value in values) + " mm"


UNITS = {"mm2": "mm²", "mm3": "mm³", "mm3/s": "mm³/s", "cm2": "cm²", "cm3": "cm³", "m2": "m²", "mm/s2": "mm/s²"}
"""Units as they are written, by their plain names."""


def unit_words(unit: str) -> str:
    """Return a unit as people write it.

    >>> unit_words("mm3/s"), unit_words("mm")
    ('mm³/s', 'mm')
    """
    return UNITS.get(unit, unit)


def time_why(ratio: Sourced | None, tongue: Tongue = ENGLISH) -> str:
    """Say where times and their range come from."""
    say = tongue.say
    if ratio is None:
        return say("Until five plates are in this printer's log, times are ±30 % (common practice, no source).")
    times, low, high = _three(ratio, tongue)
    told = say("Prints take {times} times the computed time, {low} to {high}", times=times, low=low, high=high)
    return _from_log(told, ratio, tongue)


def mass_why(ratio: Sourced | None, tongue: Tongue = ENGLISH) -> str:
    """Say where the range of masses comes from."""
    say = tongue.say
    if ratio is None:
        return say(
            "Masses vary by {low} to {high} when filament is {off} off its diameter.",
            low=tongue.number("−5.6"),
            high=tongue.amount("+5.8 %"),
            off=tongue.amount("0.05 mm"),
        )
    times, low, high = _three(ratio, tongue)
    told = say("Prints weigh {times} times what is computed, {low} to {high}", times=times, low=low, high=high)
    return _from_log(told, ratio, tongue)


def _three(ratio: Sourced, tongue: Tongue) -> tuple[str, str, str]:
    """Return a ratio and its range."""
    times, low, high = (tongue.number(f"{value:.2f}") for value in (ratio.value, ratio.low, ratio.high))
    return times, low, high


def _from_log(told: str, ratio: Sourced, tongue: Tongue) -> str:
    """Return a sentence with the source of its numbers, which stays English."""
    return f"{told} ({tongue.kept(ratio.source)})."

"""Small pieces of every sentence: names as a list, counts with their thing, a capital at the start, days and times."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, datetime


def listed(names: Iterable[str], word: str = "and", *, most_n: int | None = None) -> str:
    """Return names as a list in words; beyond ``most_n`` of them, how many more there are, if that is more than one.

    >>> listed(["a", "b", "c"]), listed(["a", "b"], "or"), listed([])
    ('a, b and c', 'a or b', 'none')
    >>> listed(["cuff", "jaw", "cap", "knob", "pad"], most_n=3)
    'cuff, jaw, cap and 2 more'
    """
    found = list(names)
    if most_n is not None and len(found) > most_n + 1:
        found = [*found[:most_n], f"{len(found) - most_n} more"]
    if not found:
        return "none"
    return found[0] if len(found) == 1 else f"{', '.join(found[:-1])} {word} {found[-1]}"


def wait_words(days: float | None) -> str:
    """Return a wait in whole days; None where it is not over within the year that was played.

    >>> wait_words(12.4), wait_words(None)
    ('12 days', 'over a year')
    """
    return "over a year" if days is None else plural(round(days), "day")


def plural(count: int, thing: str) -> str:
    """Return a count with its thing.

    >>> plural(1, "bore"), plural(3, "bore"), plural(2, "guess"), plural(0, "body")
    ('1 bore', '3 bores', '2 guesses', '0 bodies')
    """
    if count == 1:
        return f"1 {thing}"
    return (
        f"{count} {thing[:-1]}ies" if thing.endswith("dy") else f"{count} {thing}{'es' if thing.endswith('s') else 's'}"
    )


def numbers(values: Sequence[float], digits_n: int = 1) -> str:
    """Return the numbers of a place or a direction, none of them a minus zero.

    >>> numbers((-0.01, 2.0, 3.456))
    '0.0, 2.0, 3.5'
    """
    return ", ".join(f"{round(value, digits_n) + 0.0:.{digits_n}f}" for value in values)


def capital(sentence: str) -> str:
    """Return a sentence with a capital first.

    >>> capital("112 % is stated"), capital("wrist governs")
    ('112 % is stated', 'Wrist governs')
    """
    return sentence[:1].upper() + sentence[1:]


def day_words(value: date) -> str:
    """Return a day.

    >>> day_words(date(2026, 12, 5))
    'Sat 5 Dec'
    """
    return f"{value:%a} {value.day} {value:%b}"


def moment(value: datetime | None) -> str:
    """Return a day and time.

    >>> moment(datetime(2026, 12, 5, 9, 0))
    'Sat 5 Dec 09:00'
    """
    return "no time found" if value is None else f"{day_words(value)} {value:%H:%M}"

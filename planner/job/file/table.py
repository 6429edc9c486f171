"""One TOML table, read key by key: every mistake becomes a sentence with file, key, value and cure."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import date, datetime
from typing import NoReturn, TypeVar, cast

from planner.errors import FitwrightError, JobError, nearest
from planner.finding import Vec3
from planner.sourced import KINDS, Sourced, stated

Word = TypeVar("Word", bound=str)
FINITE = 1e300
"""Larger numbers count as none."""
LEAST, LEAST_ABOVE = 1e-12, 1e-6
"""What is nearer to 0 is a slip, and divisions by it end nowhere: any number, and one that must be above 0."""
WORDS_ALIKE = 0.75
"""How alike two words are before one is offered alone instead of the short list of all (0 to 1)."""
YEARS = 1900, 2199
"""Dates outside these years are slips."""


class Table:
    """A TOML table with its place in a file.

    Every getter names the key, checks its type and range, and remembers that the key is known; ``done``
    refuses what is left over, naming the nearest known key.
    """

    def __init__(self, raw: object, where: str, error: type[FitwrightError] = JobError) -> None:
        self.where, self.error = where, error
        if not isinstance(raw, dict):
            self.refuse("", f"a table is needed, not {_kind(raw)}", "write it as a [table]")
        self.raw = cast("dict[str, object]", raw)
        self.known: dict[str, None] = {}

    def refuse(self, key: str, wrong: str, todo: str) -> NoReturn:
        """Raise the table's kind of error at a key."""
        raise self.error(where=f"{self.where} {key}".strip(), wrong=wrong, todo=todo)

    def has(self, key: str) -> bool:
        """Return whether a key is there, and remember it as known."""
        self.known[key] = None
        return key in self.raw

    def _get(self, key: str) -> object:
        """Return a key's raw value; refuse where it is missing."""
        if not self.has(key):
            typo = [word for word in self.raw if word not in self.known and _alike(word, key)]
            hint = f"'{typo[0]}' is there: did you mean '{key}'?" if typo else f"add {key} = …{self._shown_by()}"
            self.refuse(key, "it is missing", hint)
        return self.raw[key]

    def _shown_by(self) -> str:
        """Say which command shows a job file's table with all its keys; nothing for other files."""
        name = re.search(r"\[([a-z_]+)\]+(?: \d+| '[^']*')?$", self.where)
        return f"; fitwright keys {name[1]} shows how" if name and self.error is JobError else ""

    def done(self) -> None:
        """Refuse any key that nobody asked for."""
        for key in self.raw:
            if key not in self.known:
                self.refuse(key, "no such key is known here", nearest(key, self.known))

    def text(self, key: str, default: str | None = None, *, empty: bool = False) -> str:
        """Return a text that says something, or may be empty; the default where the key is left out."""
        if default is not None and not self.has(key):
            return default
        value = self._get(key)
        if not isinstance(value, str):
            self.refuse(key, f"a text is needed, not {_kind(value)}", f'write {key} = "…"')
        if not value.strip() and not empty:
            self.refuse(key, "it is empty", f'write {key} = "…"' + ("" if default is None else ", or leave it out"))
        if value and min(value) < " ":
            self.refuse(key, "it holds a control character", "take it out")
        return value

    def word(self, key: str, words: Sequence[Word], default: Word | None = None) -> Word:
        """Return one of some words."""
        if default is not None and not self.has(key):
            return default
        value = self.text(key)
        for word in words:
            if value == word:
                return word
        return self.refuse(key, f"'{value}' is not known", nearest(value, words, alike_ratio=WORDS_ALIKE))

    def flag(self, key: str, *, default: bool) -> bool:
        """Return true or false."""
        if not self.has(key):
            return default
        value = self.raw[key]
        if not isinstance(value, bool):
            self.refuse(key, f"true or false is needed, not {_kind(value)}", f"write {key} = true")
        return value

    def number(self, key: str, *, low: float = 0.0, high: float = 1e6, above: bool = False) -> float:
        """Return a finite number from ``low`` (or above it) to ``high``."""
        return self._number(key, self._get(key), low, high, above=above)

    def number_or(self, key: str, default: float, *, low: float = 0.0, high: float = 1e6) -> float:
        """Return a number, or a default where the key is left out."""
        return self.number(key, low=low, high=high) if self.has(key) else default

    def number_or_none(self, key: str, *, low: float = 0.0, high: float = 1e6, above: bool = False) -> float | None:
        """Return a number, or None where the key is left out."""
        return self.number(key, low=low, high=high, above=above) if self.has(key) else None

    def _number(self, key: str, value: object, low: float, high: float, *, above: bool) -> float:
        """Check one number."""
        if isinstance(value, bool) or not isinstance(value, int | float):
            self.refuse(key, f"a number is needed, not {_kind(value)}", f"write {key} = 1.0")
        if not -FINITE < value < FINITE:  # whole numbers of a TOML file may have hundreds of digits
            told = _kind(value) if isinstance(value, int) else value
            self.refuse(key, f"{told} is not a finite number", f"write {key} as a finite number")
        if value < low or value > high or (above and value <= low):
            bound = f"{'above' if above else 'from'} {low:g} to {high:g}"
            self.refuse(key, f"{value:g} cannot be", f"it must be {bound}")
        if 0.0 < abs(value) < (LEAST_ABOVE if above else LEAST):
            todo = f"it must be from {LEAST_ABOVE:g} to {high:g}" if above else "write 0 for none"
            self.refuse(key, f"{value:g} cannot be", todo)
        return float(value)

    def count(self, key: str, default: int, *, low: int = 1, high: int = 10_000) -> int:
        """Return a whole number."""
        if not self.has(key):
            return default
        value = self.raw[key]
        if isinstance(value, bool) or not isinstance(value, int):
            self.refuse(key, f"a whole number is needed, not {_kind(value)}", f"write {key} = {max(low, 1)}")
        return int(self._number(key, value, low, high, above=False))

    def numbers(self, key: str, n: int, *, low: float = -1e6, high: float = 1e6) -> tuple[float, ...]:
        """Return a list of exactly ``n`` numbers."""
        value = self._get(key)
        if not isinstance(value, list) or len(value) != n:
            self.refuse(key, f"{n} numbers are needed, not {_kind(value)}", f"write {key} = [{', '.join(['1.0'] * n)}]")
        return tuple(self._number(key, item, low, high, above=False) for item in value)

    def rows(self, key: str, n: int) -> list[tuple[float, ...]]:
        """Return a list of rows of ``n`` numbers each."""
        value = self._get(key)
        if not isinstance(value, list) or not all(isinstance(row, list) and len(row) == n for row in value):
            self.refuse(key, f"a list of rows of {n} numbers is needed", f"write {key} = [[{', '.join(['1.0'] * n)}]]")
        return [tuple(self._number(key, item, -1e6, 1e6, above=False) for item in row) for row in value]

    def vector(self, key: str, *, low: float = -1e6, high: float = 1e6) -> Vec3:
        """Return three numbers."""
        x, y, z = self.numbers(key, 3, low=low, high=high)
        return x, y, z

    def texts(self, key: str, *, least: int = 0) -> tuple[str, ...]:
        """Return a list of texts, empty where the key is left out and none is needed."""
        if not least and not self.has(key):
            return ()
        value = self._get(key)
        if not isinstance(value, list) or not all(isinstance(item, str) and item for item in value):
            self.refuse(key, f"a list of texts is needed, not {_kind(value)}", f'write {key} = ["…"]')
        if len(value) < least:
            self.refuse(key, f"at least {least} are needed", f'write {key} = ["…"]')
        return tuple(value)

    def guessed(self) -> tuple[str, ...]:
        """Return the keys that nobody has stated: ``guessed = ["duty"]``; to be asked after all other keys."""
        keys = self.texts("guessed")
        for key in keys:
            if key not in self.known:
                self.refuse("guessed", f"'{key}' is not a key of this table", nearest(key, self.known))
        return keys

    def day(self, key: str) -> date | None:
        """Return a date, or None where the key is left out."""
        if not self.has(key):
            return None
        value = self.raw[key]
        if not isinstance(value, date):
            self.refuse(key, f"a date is needed, not {_kind(value)}", f"write {key} = 2026-12-01 without quotes")
        self._year(key, value)
        return value.date() if isinstance(value, datetime) else value

    def moment(self, key: str) -> datetime | None:
        """Return a local date and time, or None where the key is left out; a date alone means midnight."""
        if not self.has(key):
            return None
        value = self.raw[key]
        if not isinstance(value, date):
            self.refuse(key, f"a date and time is needed, not {_kind(value)}", f"write {key} = 2026-12-01T17:30:00")
        self._year(key, value)
        if isinstance(value, datetime):
            return value.replace(tzinfo=None)
        return datetime(value.year, value.month, value.day)  # noqa: DTZ001  a job runs on local time

    def _year(self, key: str, value: date) -> None:
        """Refuse a year that is a slip; calendars count on from a date, and Python's end with the year 9999."""
        if not YEARS[0] <= value.year <= YEARS[1]:
            self.refuse(key, f"the year {value.year} cannot be", f"it must be from {YEARS[0]} to {YEARS[1]}")

    def sourced(self, key: str, *, low: float = 0.0, high: float = 1e6, above: bool = False) -> Sourced:
        """Return a number with its origin: ``{ value, low, high, kind, source }``, or a plain number of the user's."""
        value = self._get(key)
        if not isinstance(value, dict):
            return stated(self._number(key, value, low, high, above=above), self.where)
        table = Table(value, f"{self.where} {key}", self.error)
        middle = table.number("value", low=low, high=high, above=above)
        least, most = (table.number_or(end, middle, low=low, high=high) for end in ("low", "high"))
        kind = table.word("kind", KINDS, "job")
        source = table.text("source", self.where if kind == "job" else None)
        table.done()
        if not least <= middle <= most:
            self.refuse(key, f"{middle:g} lies outside its own range {least:g} to {most:g}", "correct the range")
        return Sourced(value=middle, low=least, high=most, kind=kind, source=source)

    def sourced_or(self, key: str, default: Sourced, *, low: float = 0.0, high: float = 1e6) -> Sourced:
        """Return a number with its origin, or a default that says what it is."""
        return self.sourced(key, low=low, high=high) if self.has(key) else default

    def sourced_or_none(self, key: str, *, low: float = 0.0, high: float = 1e6) -> Sourced | None:
        """Return a number with its origin, or None where the key is left out."""
        return self.sourced(key, low=low, high=high) if self.has(key) else None

    def table(self, key: str) -> Table:
        """Return a table below this one."""
        return Table(self._get(key), f"{self.where} [{key}]", self.error)

    def table_or_empty(self, key: str) -> Table:
        """Return a table below this one, empty where it is left out."""
        return self.table(key) if self.has(key) else Table({}, f"{self.where} [{key}]", self.error)

    def tables(self, key: str) -> list[Table]:
        """Return an array of tables, numbered from 1; empty where it is left out."""
        if not self.has(key):
            return []
        value = self.raw[key]
        if not isinstance(value, list):
            self.refuse(key, f"several tables are needed, not {_kind(value)}", f"write it as [[{key}]]")
        return [Table(item, f"{self.where} [[{key}]] {index}", self.error) for index, item in enumerate(value, 1)]


def _kind(value: object) -> str:
    """Name a TOML value for a sentence."""
    names = {bool: "true or false", dict: "a table", list: "a list", datetime: "a date and time", date: "a date"}
    told = repr(value)
    return names.get(type(value), told if len(told) < 40 else told[:37] + "…")


def _alike(word: str, key: str) -> bool:
    """Return whether a word is probably a misspelt key."""
    return nearest(word, [key]).startswith("did you mean")


def unique(names: Iterable[str], where: str, what: str) -> None:
    """Refuse a name that stands twice."""
    seen: set[str] = set()
    for name in names:
        if name in seen:
            raise JobError(where=where, wrong=f"two {what} are called '{name}'", todo="give each a name of its own")
        seen.add(name)

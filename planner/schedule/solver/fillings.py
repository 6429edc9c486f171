"""Fillings: every set of plates that a printer can begin and clear one after the other inside one attended span."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planner.schedule.calendar.schedule_records import Key


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A plate on a printer in a span: minutes with the change, first minute it may start, what failures cost."""

    key: Key
    takes_min: int
    first: int
    lost_min: int


Filling = tuple[Item, ...]


class TooMany(Exception):  # noqa: N818  nothing is wrong: the question is too large for this way to ask it
    """More sets than are worth to be written down."""


def fillings(items: Sequence[Item], until: int, most_n: int) -> list[Filling]:
    """Return every set whose plates, worked one after the other from the first they may start at, are done by a minute.

    Of the plates that may not start before some minute those too must be done; a set that breaks this stays broken
    with more plates, so none of those is looked at.

    Raises
    ------
    TooMany
        Where there are more than ``most_n``.
    """
    ordered = sorted(items, key=lambda item: (item.takes_min, item.key))
    found: list[Filling] = []
    soonest = min((item.first for item in items), default=0)

    def grown(start: int, chosen: Filling) -> None:
        for index in range(start, len(ordered)):
            item = ordered[index]
            more = (*chosen, item)
            if not fits(more, until):
                if item.first == soonest:
                    return  # those after it are longer and would not fit either, wherever they may start
                continue
            found.append(more)
            if len(found) > most_n:
                raise TooMany
            grown(index + 1, more)

    grown(0, ())
    return found


def fits(items: Sequence[Item], until: int) -> bool:
    """Return whether the plates can be done by a minute as far as their sums tell.

    >>> early = Item(key=(0, 1), takes_min=50, first=0, lost_min=0)
    >>> late = Item(key=(0, 2), takes_min=50, first=60, lost_min=0)
    >>> fits([early, late], 110), fits([early, late], 109)
    (True, False)
    """
    return all(
        begin + sum(item.takes_min for item in items if item.first >= begin) <= until
        for begin in {item.first for item in items}
    )

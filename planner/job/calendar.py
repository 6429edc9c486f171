"""When printing may start and must end: windows of the week, dates, and rules about plates."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

SplitWish = Literal["never", "when-needed", "when-it-pays"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Attended:
    """A window of the week with somebody at home; day 0 is Monday; minutes since midnight."""

    days: tuple[int, ...]
    from_min: int
    to_min: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Calendar:
    """When printing may start and must end, who is there, and what things cost here."""

    start: datetime | None = None
    zone: str = ""
    """The place's name in the IANA time zone database, as Europe/Berlin; empty: its clocks never change."""
    deadline: date | None = None
    attended: tuple[Attended, ...] = ()
    unattended: bool = False
    """Whether a plate may run on while nobody is there; it is started, and its bed cleared, by somebody."""
    quiet: tuple[Attended, ...] = ()
    """Windows of the week in which no printer may run."""
    people_n: int | None = None
    """How many can clear beds at once; None: as many as printers."""
    first_article: bool = True
    """Whether the first plate is done before any other begins, on whatever printer."""
    split: SplitWish = "when-needed"
    """When a plate is parted into several: never, where no time is long enough for it, or also where that pays."""
    fitting: datetime | None = None
    """When the recipient comes; the device is ready before it or waits for it."""
    currency: str = "EUR"
    energy_per_kwh: float | None = None
    together: tuple[tuple[str, ...], ...] = ()
    """Sets of parts whose copies all lie on one plate."""
    apart: tuple[tuple[str, ...], ...] = ()
    """Sets of parts of which no two share a plate."""

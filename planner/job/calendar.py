"""When printing may start and must end: windows of the week, dates, and rules about plates."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

SplitWish = Literal["never", "when-needed", "when-it-pays"]
CouponWish = Literal["never", "when-it-decides", "always"]
Order = Literal["together", "one-after-another"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Attended:
    """A window of the week with somebody at home; day 0 is Monday; minutes since midnight."""

    days: tuple[int, ...]
    from_min: int
    to_min: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """What counts, in any one unit: an hour to the complete set, a gram lost, a plate change beyond its time."""

    per_hour: float = 1.0
    per_lost_g: float = 0.0
    per_change: float = 0.0


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
    joint_first: bool = False
    """Whether that plate holds the pieces of one joint and nothing else."""
    one_printer: bool = True
    """Whether parts that move on each other are printed on one printer."""
    coupon: CouponWish = "when-it-decides"
    """When a coupon is printed and measured before everything else."""
    split: SplitWish = "when-needed"
    """When a plate is parted into several: never, where no time is long enough for it, or also where that pays."""
    weights: Weights = Weights()
    """What a split is weighed by."""
    order: Order = "together"
    """Whether the copies on a plate grow layer by layer together, or each is finished before the next begins."""
    fitting: datetime | None = None
    """When the recipient comes; the device is ready before it or waits for it."""
    currency: str = "EUR"
    energy_per_kwh: float | None = None
    together: tuple[tuple[str, ...], ...] = ()
    """Sets of parts whose copies all lie on one plate."""
    apart: tuple[tuple[str, ...], ...] = ()
    """Sets of parts of which no two share a plate."""

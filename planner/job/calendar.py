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
    """A window of the week; day 0 is Monday; minutes count from midnight."""

    days: tuple[int, ...]
    from_min: int
    to_min: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """What counts when a split is weighed, all three in the same unit of your choice."""

    per_hour: float = 1.0
    """Weight of each hour until the set is complete."""
    per_lost_g: float = 0.0
    """Weight of each gram lost to failures."""
    per_change: float = 0.0
    """Weight of each plate change, beyond its time."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Calendar:
    """When printing may start and must end, who is there, and what things cost here."""

    start: datetime | None = None
    """The first moment; without it no plate gets a time."""
    zone: str = ""
    """Name in the IANA time zone database, such as Europe/Berlin; left out: clocks never change."""
    deadline: date | None = None
    """The day by whose end the device is ready."""
    attended: tuple[Attended, ...] = ()
    """When somebody is there to start a plate and clear a bed; left out: always."""
    unattended: bool = False
    """Whether a plate may run on while nobody is there."""
    quiet: tuple[Attended, ...] = ()
    """When no printer may run."""
    people_n: int | None = None
    """How many beds can be cleared at once; left out: as many as there are printers."""
    first_article: bool = True
    """Whether a first plate is finished before any other starts; "joint": one that holds the pieces of one joint."""
    joint_first: bool = False
    """Whether that plate holds the pieces of one joint and nothing else."""
    one_printer: bool = True
    """Whether parts that move on each other come from one printer."""
    coupon: CouponWish = "when-it-decides"
    """When a coupon is printed and measured before everything else."""
    split: SplitWish = "when-needed"
    """When a plate is split into several: never, where it is too long for any time, or also where that pays."""
    weights: Weights = Weights()
    """What a split is weighed by."""
    order: Order = "together"
    """Whether the copies on a plate grow together, or each is finished before the next begins."""
    fitting: datetime | None = None
    """When the recipient comes; the device must be ready before."""
    currency: str = "EUR"
    """The currency of all prices."""
    energy_per_kwh: float | None = None
    """What electricity costs; left out: energy is not billed."""
    together: tuple[tuple[str, ...], ...] = ()
    """Sets of parts whose copies all lie on one plate."""
    apart: tuple[tuple[str, ...], ...] = ()
    """Sets of parts of which no two share a plate."""

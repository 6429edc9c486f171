"""Free: from when on each printer takes plates, after all that was scheduled on it before."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from planner.plan.dates.plate_dates import TimedPlates
from planner.plan.stages import CouponFirst


@dataclass(frozen=True, slots=True, kw_only=True)
class Free:
    """By printer the moment from which on it takes plates, by the clock of a zone; empty: clocks never change."""

    at: Mapping[str, tuple[datetime, str]] = field(default_factory=dict)

    def after(self, made: TimedPlates, zone: str) -> Free:
        """Return the same after plates that got times: a printer is free when its bed is cleared."""
        if made.clocks is None:
            return self
        table = made.clocks.table
        later = dict(self.at)
        for run in table.placed:
            moment = table.at(run.free_min)
            if run.printer not in later or in_zone(*later[run.printer], zone) < moment:
                later[run.printer] = moment, zone
        return Free(at=later)

    def with_coupons(self, coupons: Iterable[CouponFirst], zone: str) -> dict[str, datetime]:
        """Return the moments by the clock of a zone; a printer whose coupon is not measured yet is not free either."""
        found = {name: in_zone(moment, own, zone) for name, (moment, own) in self.at.items()}
        for first in coupons:
            if first.measured is not None:
                found[first.printer] = max(first.measured, found.get(first.printer, first.measured))
        return found


def in_zone(moment: datetime, own: str, zone: str) -> datetime:
    """Return what a clock in another zone shows at a moment; where one of them is not stated they are one place.

    >>> in_zone(datetime(2026, 12, 1, 12), "Europe/Berlin", "Europe/London")
    datetime.datetime(2026, 12, 1, 11, 0)
    """
    if not own or not zone or own == zone:
        return moment
    return moment.replace(tzinfo=ZoneInfo(own)).astimezone(UTC).astimezone(ZoneInfo(zone)).replace(tzinfo=None)

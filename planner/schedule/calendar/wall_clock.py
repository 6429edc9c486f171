"""Wall: minutes from the plan's start as a clock on the wall shows them, also over a change of the clocks."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from planner.job import Calendar


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """A start by the wall clock, and the place's zone of the IANA time zone database; empty: clocks never change.

    A plate that runs over the night of the change ends an hour earlier or later by the clock than its length says, and
    a window of that night is an hour shorter or longer.
    """

    start: datetime
    zone: str = ""

    @staticmethod
    def of(calendar: Calendar) -> Wall:
        """Return the wall of a calendar.

        Raises
        ------
        ValueError
            Where it has no start: it has no dates then.
        """
        if calendar.start is None:
            raise ValueError("a calendar without a start has no dates")
        return Wall(start=calendar.start, zone=calendar.zone)

    def at(self, minute: float) -> datetime:
        """Return what the clock shows so many minutes of real time after the start, to the whole minute."""
        return self.after(timedelta(minutes=round(minute)))

    def after(self, real: timedelta) -> datetime:
        """Return what the clock shows after some real time."""
        if not self.zone:
            return self.start + real
        place = ZoneInfo(self.zone)
        return (self.start.replace(tzinfo=place).astimezone(UTC) + real).astimezone(place).replace(tzinfo=None)

    def minutes_to(self, when: datetime) -> float:
        """Return the minutes of real time from the start to what the clock shows; before the start below 0."""
        if not self.zone:
            return (when - self.start).total_seconds() / 60.0
        place = ZoneInfo(self.zone)
        since = when.replace(tzinfo=place).astimezone(UTC) - self.start.replace(tzinfo=place).astimezone(UTC)
        return since.total_seconds() / 60.0

"""First articles that run: until when the other plates of their job wait."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from planner.job import Job, printers_of
from planner.ledger import under_way

if TYPE_CHECKING:
    from sqlalchemy.engine import Engine


def off_the_bed(engine: Engine, job: Job) -> list[datetime]:
    """Return when plates of a job that run are off the bed: one is its first article, and the others wait for it.

    Without that the first of the others would be the first article, too, and the rest would move behind it.
    """
    change = timedelta(seconds=max(printer.plate_change_s.value for printer in printers_of(job)))
    return [whole_minute(row["end"] + change) for row in under_way(engine) if row["job"] == job.recipient]


def whole_minute(moment: datetime) -> datetime:
    """Return the next whole minute: calendars count in minutes.

    >>> whole_minute(datetime(2026, 12, 1, 8, 0, 1))
    datetime.datetime(2026, 12, 1, 8, 1)
    """
    cut = moment.replace(second=0, microsecond=0)
    return cut if cut == moment else cut + timedelta(minutes=1)

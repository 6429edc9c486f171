"""Ledger: what a chapter knows, over months: a journal of events, and tables of today that follow from it.

1. ``made(where)`` makes a ledger in a file (SQLite) or at a URL (PostgreSQL); ``opened(where)`` opens one.
2. ``told(engine, events, now)`` takes events into the journal and changes the tables, all or nothing.
3. ``shown(engine, view, today)`` and ``recalled(engine, lot)`` answer; ``as_known(engine, then)`` as it was known then.
4. ``learned(engine, printers)`` says what its history teaches.
5. ``backed_up``, ``restored``, ``exported``, ``imported`` carry it; ``forgotten`` redacts a recipient everywhere.
"""

from planner.ledger.backup_restore import backed_up, exported, imported, journal_in, restored
from planner.ledger.carry.parquet_tables import in_parquet
from planner.ledger.chapter_file import events_of, leads_of, ledger_beside, money_of, moves_of
from planner.ledger.codes import code_of, job_and_number, plate_id
from planner.ledger.device.device_log import tested_devices
from planner.ledger.device_items import devices_that_took, items_known
from planner.ledger.event import LOG_KINDS, ROLES, Event
from planner.ledger.forget_recipient import forgotten
from planner.ledger.history.drifts import ToldDrift
from planner.ledger.history.learned import History, Learned, learned
from planner.ledger.history.months_ahead import MonthsAhead, months_ahead
from planner.ledger.journal import ToldSinceError, as_known, last_line, told, told_since, untold
from planner.ledger.ledger_views import VIEWS, printed, recalled, shown
from planner.ledger.open_ledger import brought_up, made, opened
from planner.ledger.plates.as_planned import as_planned, failures_since, gates_since, planned_jobs, staff
from planner.ledger.plates.running import under_way

__all__ = [
    "LOG_KINDS",
    "ROLES",
    "VIEWS",
    "Event",
    "History",
    "Learned",
    "MonthsAhead",
    "ToldDrift",
    "ToldSinceError",
    "as_known",
    "as_planned",
    "backed_up",
    "brought_up",
    "code_of",
    "devices_that_took",
    "events_of",
    "exported",
    "failures_since",
    "forgotten",
    "gates_since",
    "imported",
    "in_parquet",
    "items_known",
    "job_and_number",
    "journal_in",
    "last_line",
    "leads_of",
    "learned",
    "ledger_beside",
    "made",
    "money_of",
    "months_ahead",
    "moves_of",
    "opened",
    "planned_jobs",
    "plate_id",
    "printed",
    "recalled",
    "restored",
    "shown",
    "staff",
    "tested_devices",
    "told",
    "told_since",
    "under_way",
    "untold",
]

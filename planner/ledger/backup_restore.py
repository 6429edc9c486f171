"""A ledger backed up, restored, exported and imported, each in one go."""

from __future__ import annotations

import csv
import json
import warnings
from collections.abc import Sequence
from contextlib import suppress
from datetime import date, datetime
from pathlib import Path
from typing import Any

from sqlalchemy import select
from sqlalchemy.engine import Engine
from sqlalchemy.exc import SAWarning, SQLAlchemyError

from planner.errors import LedgerError
from planner.ledger.event import Event
from planner.ledger.journal import alone, lines, told, written_again
from planner.ledger.open_ledger import made, opened
from planner.ledger.tables import TODAY
from planner.whole_file import whole, write_text

JOURNAL = "journal.json"
JOURNAL_CSV = "journal.csv"
COLUMNS = ("known_at", "at", "kind", "subject", "role", "body", "key")
"""Of a journal as CSV; the body is JSON."""
SCHEMA = "fitwright/journal/1"
EDITED = (SQLAlchemyError, SAWarning, KeyError, TypeError, ValueError, OverflowError, AttributeError)
"""What an export that somebody has edited may end in: cells of another kind, or none at all."""


def backed_up(engine: Engine, path: Path, event: Event, known_at: datetime) -> int:
    """Write a ledger into a file of its own, whole or not at all, and return how many events it holds.

    The ledger knows where its backups lie, so that it can name those that hold what is redacted later.
    """
    told(engine, [event], known_at)
    with engine.begin() as db:
        journal = list(lines(db))
    _written(path, journal)
    return len(journal)


def restored(where: str, backup: Path) -> int:
    """Put a backup in place of a ledger, also of a damaged one, and return how many events it holds.

    Raises
    ------
    LedgerError
        Where the backup is none; then the ledger stays as it is.
    """
    with opened(str(backup)).begin() as db:
        journal = list(lines(db))
    if "://" not in where:
        _written(Path(where), journal)
        return len(journal)
    engine = opened(where)
    with engine.begin() as db:
        alone(db)
        written_again(db, journal)
    return len(journal)


def _written(path: Path, journal: Sequence[Any]) -> None:
    """Write a journal as a ledger in a file, in place of what is there."""
    with whole(path, 0o600) as aside:
        aside.unlink()  # a ledger is made where nothing is
        try:
            with made(str(aside)).begin() as db:
                written_again(db, journal)
        finally:
            _without_log(aside)
        _settle(path)
        _without_log(path)  # before the file is replaced: a new one must never meet the old one's log


def _settle(path: Path) -> None:
    """Bring the log of a ledger into its file, where it can be read: whoever is killed then has lost nothing."""
    with suppress(LedgerError, SQLAlchemyError):
        engine = opened(str(path))
        try:
            with engine.connect() as db:
                db.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)")
        finally:
            engine.dispose()


def _without_log(path: Path) -> None:
    """Take away what SQLite keeps beside a file."""
    for log in ("-wal", "-shm"):
        Path(f"{path}{log}").unlink(missing_ok=True)


def exported(engine: Engine, folder: Path) -> tuple[Path, ...]:
    """Write the journal as JSON and CSV, a ledger can be made again from either, and the tables of today as CSV."""
    folder.mkdir(parents=True, exist_ok=True)
    with engine.begin() as db:
        rows = [{"known_at": known_at.isoformat(), **_as_json(event)} for _, known_at, event in lines(db)]
        every = {table: db.execute(select(table).order_by(*table.primary_key)).all() for table in TODAY}
    files = [folder / JOURNAL]
    write_text(files[0], json.dumps({"schema": SCHEMA, "events": rows}, indent=1, ensure_ascii=False) + "\n", 0o600)
    files.append(_csv(folder / JOURNAL_CSV, COLUMNS, [[row[name] for name in COLUMNS] for row in rows]))
    files += [_csv(folder / f"{table.name}.csv", table.c.keys(), found) for table, found in every.items()]
    return tuple(files)


def _csv(path: Path, columns: Sequence[str], rows: Sequence[Any]) -> Path:
    """Write rows as CSV, and return where."""
    with whole(path, 0o600) as aside, aside.open("w", encoding="utf-8", newline="") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(columns)
        writer.writerows([_cell(value) for value in row] for row in rows)
    return path


def imported(engine: Engine, source: Path) -> tuple[int, int]:
    """Take the events of an export that are not there yet; return how many were taken, and how many there are in it.

    ``source`` is a journal in JSON or CSV, or an exported folder: of its two journals the JSON is read, where it is.

    Raises
    ------
    LedgerError
        Where there is no journal, or it cannot be read; then none is taken.
    """
    path = journal_in(source)
    try:
        known_schema, events = _read_csv(path) if path.suffix.lower() == ".csv" else _read_json(path)
        rows = [(datetime.fromisoformat(row["known_at"]), _of_json(row)) for row in events]
    except (OSError, ValueError, KeyError, TypeError, RecursionError, csv.Error):
        known_schema, rows = False, []
    if not known_schema:
        raise LedgerError(where=str(path), wrong="it is no exported journal", todo="name an exported folder")
    with engine.begin() as db:
        alone(db)
        journal = list(lines(db))
        known = {event.key for _, _, event in journal}
        new = [(known_at, event) for known_at, event in rows if event.key not in known]
        last = max((number for number, _, _ in journal), default=0)
        try:
            added = [(last + n, known_at, event) for n, (known_at, event) in enumerate(new, 1)]
            with warnings.catch_warnings():
                warnings.simplefilter("error", SAWarning)  # a row without its key: one sentence, not two voices
                written_again(db, [*journal, *added])
        except EDITED as problem:
            told = str(problem).splitlines() or [type(problem).__name__]
            wrong = f"its events do not go with this ledger ({told[0]})"
            raise LedgerError(where=str(path), wrong=wrong, todo="import it into a new ledger") from None
    return len(new), len(rows)


def journal_in(source: Path) -> Path:
    """Return the journal that is meant: a file itself, or the one of an exported folder, in JSON where it has that."""
    if not source.is_dir():
        return source
    return source / (JOURNAL_CSV if (source / JOURNAL_CSV).is_file() and not (source / JOURNAL).is_file() else JOURNAL)


def _read_json(path: Path) -> tuple[bool, list[dict[str, Any]]]:
    """Return whether a file is a journal in JSON, and its rows."""
    document = json.loads(path.read_text(encoding="utf-8"))
    return document["schema"] == SCHEMA, document["events"]


def _read_csv(path: Path) -> tuple[bool, list[dict[str, Any]]]:
    """Return whether a file is a journal in CSV, and its rows; a byte-order mark goes."""
    with path.open(encoding="utf-8-sig", newline="") as file:
        reader = csv.DictReader(file)
        rows = [{**row, "body": json.loads(row["body"])} for row in reader]
    return set(reader.fieldnames or ()) == set(COLUMNS), rows


def _as_json(event: Event) -> dict[str, Any]:
    """Return an event as plain JSON types."""
    names = ("key", "kind", "subject", "role")
    return {"at": event.at.isoformat(), **{name: getattr(event, name) for name in names}, "body": dict(event.body)}


def _of_json(row: dict[str, Any]) -> Event:
    """Return an event of plain JSON types."""
    at = datetime.fromisoformat(row["at"])
    return Event(key=row["key"], at=at, kind=row["kind"], subject=row["subject"], role=row["role"], body=row["body"])


def _cell(value: object) -> object:
    """Return a value as a CSV cell."""
    if isinstance(value, list | dict):
        return json.dumps(value, ensure_ascii=False)
    return value.isoformat() if isinstance(value, date) else value

"""A recipient redacted everywhere, in the journal too; what was printed stays, under no code.

The size that a device was printed at tells a person's measures as they do: it goes, and so do the places of pieces on a
bed. Grams and hours stay to the last digit: spools, printers and what the ledger learns are counted by them.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import datetime
from typing import Any

from sqlalchemy import select, update
from sqlalchemy.engine import Engine

from planner.ledger.event import LOG_KINDS, Event
from planner.ledger.journal import alone, lines, rebuilt, told
from planner.ledger.tables import BACKUP, EVENT

PERSONAL = {"job": ("scale_percent", "deadline", "measures", "overrides", "made"), "note": ("text",)} | dict.fromkeys(
    LOG_KINDS, ("text",)
)
"""What is taken out of the bodies of events about a recipient, by kind."""
REDACTED = "(redacted)"


def forgotten(engine: Engine, event: Event, known_at: datetime) -> tuple[str, tuple[str, ...]]:
    """Redact a recipient, and return what stands for the code now and which backups still hold it.

    Raises
    ------
    LedgerError
        Where no job has that code.
    """
    told(engine, [event], known_at)
    code = event.subject
    whole = re.compile(rf"(?<![A-Za-z0-9-]){re.escape(code)}(?![A-Za-z0-9])")
    with engine.begin() as db:
        alone(db)
        journal = list(lines(db))
        stands = f"X-{sum(other.kind == 'forget' for _, _, other in journal)}"
        for number, _, other in journal:
            mine = whole.fullmatch(other.subject) or other.subject.startswith(f"{code}.")
            body = _without(other) if mine else dict(other.body)
            changed = {"subject": whole.sub(stands, other.subject), "body": _replaced(body, whole, stands)}
            if changed != {"subject": other.subject, "body": dict(other.body)}:
                db.execute(update(EVENT).where(EVENT.c.id == number).values(**changed))
        rebuilt(db)
        backups = tuple(db.execute(select(BACKUP.c.path).order_by(BACKUP.c.event)).scalars())
    _overwritten(engine)
    return stands, tuple(dict.fromkeys(backups))


def _without(event: Event) -> dict[str, Any]:
    """Return an event's body without what tells about a person."""
    gone = PERSONAL.get(event.kind, ())
    kept = {key: value for key, value in event.body.items() if key not in gone}
    kept |= {"text": REDACTED} if "text" in gone else {}
    if event.kind == "plates":
        kept["plates"] = [{**row, "pieces": [_sizeless(piece) for piece in row["pieces"]]} for row in kept["plates"]]
    if "made" in kept:
        kept["made"] = {part: _mesh_of(made) for part, made in kept["made"].items()}
    return kept


def _sizeless(piece: Mapping[str, Any]) -> dict[str, Any]:
    """Return a piece of a plate without its size and where it lay."""
    return {**piece, "made_as": _mesh_of(piece["made_as"]), "places": []}


def _mesh_of(made_as: str) -> str:
    """Return what a piece is printed from without the size that it is printed at."""
    return f"{made_as.partition(' ')[0]} {REDACTED}"


def _replaced(value: Any, whole: re.Pattern[str], stands: str) -> Any:
    """Return a body in which another code stands, in keys and texts at any depth."""
    if isinstance(value, str):
        return whole.sub(stands, value)
    if isinstance(value, Mapping):
        return {whole.sub(stands, key): _replaced(each, whole, stands) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_replaced(each, whole, stands) for each in value]
    return value


def _overwritten(engine: Engine) -> None:
    """Write a SQLite file anew, so that neither its free pages nor its log hold what was redacted."""
    if engine.dialect.name != "sqlite":
        return
    raw = engine.raw_connection()
    try:
        for words in ("PRAGMA wal_checkpoint(TRUNCATE)", "VACUUM", "PRAGMA wal_checkpoint(TRUNCATE)"):
            raw.cursor().execute(words).fetchall()
    finally:
        raw.close()

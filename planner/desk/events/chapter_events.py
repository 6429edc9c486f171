"""What happened in a chapter, told at the desk: one event a time, to the ledger that chapter.toml names."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from math import isfinite
from typing import TYPE_CHECKING, Any
from uuid import uuid4

from planner.calibrate import lost_pieces
from planner.desk.work_folder import DeskFolder
from planner.errors import CommandError, nearest
from planner.job import read_failure_rules
from planner.ledger import Event, last_line, ledger_beside, opened, shown, told, told_since, under_way

if TYPE_CHECKING:
    from sqlalchemy.engine import Engine

Json = dict[str, Any]
CHAPTER = "chapter.toml"
WORD_MOST_N = 500
NUMBERS = {"grams": "used_g", "left_g": "left_g", "n": "n", "ran_min": "ran_s"}
"""Fields that are numbers, and what the journal calls each."""
TELLS: Mapping[str, tuple[str, ...]] = {
    "started": ("printer", "spool"),
    "done": ("grams", "ran_min", "spool"),
    "failed": ("cause", "ran_min", "lost", "grams", "spool"),
    "weighed": ("left_g", "material", "colour", "lot", "printer"),
    "bought": ("n",),
    "fitted": (),
    "handed": (),
    "note": ("text",),
}
"""What may be told at the desk, and the fields of each."""
NEEDS = {"failed": "cause", "weighed": "left_g", "bought": "n", "note": "text"}


class ChapterEvents:
    """The ledger of a desk's folder; ``clock`` says when something is told, by the clock on the wall.

    Raises
    ------
    CommandError, LedgerError
        From every method, in one sentence, where it cannot be done; then nothing is told.
    """

    def __init__(self, folder: DeskFolder, clock: Callable[[], datetime] = datetime.now) -> None:
        self.folder, self._clock = folder, clock
        self._open: tuple[str, Engine] | None = None

    def there(self) -> bool:
        """Return whether the folder's chapter names a ledger."""
        return bool(self._where())

    def last_line(self) -> int:
        """Return the number of the journal's last line."""
        return last_line(self._engine())

    def since(self, seen: int) -> tuple[Event, ...]:
        """Return what was told after a line."""
        return told_since(self._engine(), seen)

    def state(self) -> Json:
        """Return what may be told of: plates, devices, spools and stock, with the last line that this shows.

        The line's number is read first: what is told while the rest is read counts as not seen.
        """
        engine, today = self._engine(), self.folder.day()
        seen = last_line(engine)
        plates = shown(engine, "plates", today)
        return {
            "seen": seen,
            "tells": {kind: list(fields) for kind, fields in TELLS.items()},
            "causes": sorted(read_failure_rules()),
            "running": [row["id"] for row in under_way(engine)],
            "plates": [{key: row[key] for key in ("id", "state", "printer", "pieces")} for row in plates],
            "jobs": [{key: row[key] for key in ("job", "state")} for row in shown(engine, "recipients", today)],
            "spools": [
                {key: row[key] for key in ("id", "colour", "left_g")}
                for row in shown(engine, "spools", today)
                if not row["retired"]
            ],
            "stock": [{key: row[key] for key in ("name", "n")} for row in shown(engine, "stock", today)],
        }

    def tell(self, kind: str, fields: Mapping[str, Any], seen: int | None) -> Json:
        """Take one event, and return how it was kept; ``seen`` is the last line of the journal that its page shows.

        Raises
        ------
        ToldSinceError
            Where somebody has told of the same thing since.
        """
        now = self._clock().replace(microsecond=0)
        event = event_of_form(kind, fields, now)
        engine = self._engine()
        kept = told(engine, [event], now, seen)[0]
        return {"kind": kept.kind, "subject": kept.subject, "body": dict(kept.body), "state": self.state()}

    def _where(self) -> str:
        """Return the ledger that the folder's chapter names: inside of the folder, or a URL; empty for none."""
        path = self.folder.path / CHAPTER
        where = ledger_beside(path) if path.is_file() else ""
        if where and "://" not in where:
            found = (self.folder.path / where).resolve()
            if not found.is_relative_to(self.folder.path):
                todo = "name one in the folder, or a URL"
                raise CommandError(where=CHAPTER, wrong="its ledger lies outside of the desk's folder", todo=todo)
            return str(found)
        return where

    def _engine(self) -> Engine:
        """Return the ledger, opened once."""
        where = self._where()
        if not where:
            todo = f"write ledger in [chapter] of {CHAPTER} in this folder, and make it by fitwright ledger FILE init"
            raise CommandError(where=CHAPTER, wrong="no ledger is named", todo=todo)
        if self._open is None or self._open[0] != where:
            self._open = where, opened(where)
        return self._open[1]


def event_of_form(kind: str, fields: Mapping[str, Any], at: datetime) -> Event:
    """Return the event that a form's fields tell; what is left empty is not told.

    Raises
    ------
    CommandError, ProfileError
        Where a field cannot be, or the one that the event needs is empty.
    """
    if kind not in TELLS:
        raise CommandError(where="kind", wrong=f"'{kind[:40]}' is not told at the desk", todo=nearest(kind, TELLS))
    known = ("subject", "role", "key", "even_so", *TELLS[kind])
    for key in fields:
        if key not in known:
            raise CommandError(where=key[:40], wrong=f"{kind} has no such field", todo=nearest(key, known))
    body: Json = {}
    for key in TELLS[kind]:
        value = fields.get(key)
        if value in (None, ""):
            if NEEDS.get(kind) == key:
                raise CommandError(where=key, wrong="it is empty", todo=f"{kind} needs it")
        elif key in NUMBERS:
            body[NUMBERS[key]] = _number(key, value) * (60.0 if key == "ran_min" else 1.0)
        else:
            body[key] = _word(key, value)
    if "cause" in body and body["cause"] not in (causes := read_failure_rules()):
        wrong = f"'{body['cause']}' is not known"
        raise CommandError(where="cause", wrong=wrong, todo=nearest(body["cause"], causes))
    if "lost" in body:
        body["lost"] = dict(lost_pieces(body["lost"], "lost"))
    if fields.get("even_so") is True:
        body["even_so"] = True
    role = _word("role", fields.get("role") or "maker")
    key = _word("key", fields.get("key") or uuid4().hex)[:64]
    return Event(key=key, at=at, kind=kind, subject=_word("subject", fields.get("subject")), role=role, body=body)


def _number(key: str, value: object) -> float:
    """Return a field's number; only what is bought may be less than 0."""
    try:
        found = float(str(value).replace(",", "."))
    except ValueError:
        found = float("nan")
    if not isfinite(found) or (found < 0.0 and key != "n") or isinstance(value, bool):
        wrong = f"'{str(value)[:40]}' is no amount"
        raise CommandError(where=key, wrong=wrong, todo="write a number, such as 12.5")
    return found


def _word(key: str, value: object) -> str:
    """Return a field's words."""
    if not isinstance(value, str) or not value.strip():
        raise CommandError(where=key, wrong="it is empty", todo="fill it in")
    if len(value) > WORD_MOST_N or any("\ud800" <= letter <= "\udfff" for letter in value):
        raise CommandError(where=key, wrong="it is too long, or holds an incomplete character", todo="write it again")
    return value.strip()

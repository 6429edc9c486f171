"""``record.toml`` read back: every mistake is one sentence with file, key and cure."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import get_args

from planner.errors import RecordError
from planner.job import LANGUAGES, Table, read_toml
from planner.output.paper_files.page_size import PaperName
from planner.output.record.record import ROLES, Lift, Lot, Of, Record, Result, Taken, Tried

RESULTS: tuple[Result, ...] = ("pass", "fail")
PAPERS: tuple[PaperName, ...] = get_args(PaperName)


def read_record(path: Path) -> Record:
    """Read a record.

    Raises
    ------
    RecordError
        No such file, not TOML, an unknown key, or a value that cannot be.
    """
    table = read_toml(path, RecordError)
    of = _of(table.table("of"))
    roles = table.table_or_empty("role")
    test = table.table_or_empty("test")
    record = Record(
        of=of,
        roles=tuple((role, roles.text(role, "", empty=True).strip()) for role in ROLES),
        measures=tuple(_measure(each) for each in table.tables("measure")),
        tested_on=_day(test, "on"),
        trials=tuple(_trial(each) for each in test.tables("trial")),
        lots=tuple(_lot(each) for each in table.tables("lot")),
        lifts=tuple(_lift(each) for each in table.tables("override")),
    )
    for one in (roles, test, table):
        one.done()
    _once(table, "[[test.trial]]", [one.trial for one in record.trials])
    _once(table, "[[lot]]", [one.of for one in record.lots])
    _once(table, "[[measure]]", [one.name for one in record.measures])
    _once(table, "[[override]]", [one.item for one in record.lifts])
    return record


def _of(table: Table) -> Of:
    """Read what the record is of."""
    of = Of(
        job=table.text("job"),
        recipient=table.text("recipient", "", empty=True),
        scale_percent=table.number("scale_percent", high=1000.0, above=True),
        side=table.text("side", "", empty=True),
        printer=table.text("printer"),
        material=table.text("material"),
        parts_sha256=table.text("parts_sha256"),
        settings_sha256=table.text("settings_sha256", "", empty=True),
        paper=table.word("paper", PAPERS, "a4"),
        language=table.word("language", LANGUAGES) if table.has("language") else None,
    )
    table.done()
    return of


def _day(table: Table, key: str) -> date | None:
    """Return a date; None where it is left out or still empty."""
    return None if table.raw.get(key) == "" and table.has(key) else table.day(key)


def _measure(table: Table) -> Taken:
    """Read one measure."""
    empty = table.has("recipient_mm") and table.raw["recipient_mm"] == ""
    taken = Taken(
        name=table.text("name"),
        recipient_mm=None if empty else table.number_or_none("recipient_mm", high=1e5, above=True),
        taken=_day(table, "taken"),
    )
    table.done()
    return taken


def _trial(table: Table) -> Tried:
    """Read one trial; its result is pass, fail, or still empty."""
    blank = table.text("result", "", empty=True).strip() == ""
    tried = Tried(
        trial=table.text("trial"),
        result="" if blank else table.word("result", RESULTS),
        reading=_loose(table, "reading"),
        remark=table.text("remark", "", empty=True),
    )
    table.done()
    return tried


def _loose(table: Table, key: str) -> str:
    """Return a reading: a text, or a number written without quotes."""
    value = table.raw.get(key)
    if table.has(key) and isinstance(value, int | float) and not isinstance(value, bool):
        return f"{table.number(key, low=-1e9, high=1e9):g}"
    return table.text(key, "", empty=True)


def _lot(table: Table) -> Lot:
    """Read one lot; a number may stand without quotes."""
    lot = Lot(of=table.text("of"), lot=_loose(table, "lot").strip())
    table.done()
    return lot


def _lift(table: Table) -> Lift:
    """Read one override: it needs a role and a reason."""
    lift = Lift(item=table.text("item"), role=table.text("role"), reason=table.text("reason"))
    table.done()
    return lift


def _once(table: Table, where: str, names: list[str]) -> None:
    """Refuse a name that stands twice: two answers to one question."""
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        table.refuse(where, f"'{twice[0]}' stands there twice", "keep one of them")

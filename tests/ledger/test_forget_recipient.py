"""A recipient is forgotten: no table, no line of the journal and no byte of the file holds the code or a measure."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from sqlalchemy import select

from planner.ledger import Event, backed_up, forgotten, made, recalled, shown, told
from planner.ledger.tables import EVENT
from tests.ledger.telling import DAY, chapter, tell
from tests.ledger.test_journal import of_today


def at_size(events: Sequence[Event], percent: str) -> list[Event]:
    """Return events of a device that is printed at a size, in percent: its digits tell it from another."""
    words = {"106.5": percent, "as drawn": f"{'c' * 32} {percent}0 {percent}0 {percent}0"}
    told_of = [json.dumps(dict(event.body)) for event in events]
    for word, other in words.items():
        told_of = [body.replace(word, other) for body in told_of]
    return [replace(event, body=json.loads(body)) for event, body in zip(events, told_of, strict=True)]


def test_no_trace_is_left_and_the_backups_that_hold_one_are_named(where: str, tmp_path: Path) -> None:
    """Of two recipients one is forgotten: the other stays, prints and grams stay under a code of nobody, a recall still works."""
    engine, backup = made(where), tmp_path / "kept.db"
    told(engine, [*at_size(chapter("R-07"), "106.5"), *at_size(chapter("R-071")[1:], "99.5")], DAY)
    told(engine, [tell("done", "R-07.1"), tell("note", "R-07", text="strap too long, thumb of 58 mm")], DAY)
    told(engine, [tell("note", "R-071", text="the same strap as R-07"), tell("handed", "R-07", even_so=True)], DAY)
    backed_up(engine, backup, tell("backup", "ledger", path=str(backup)), DAY)
    left_g = shown(engine, "spools", DAY.date())[0]["left_g"]

    stands, backups = forgotten(engine, tell("forget", "R-07"), DAY)
    assert backups == (str(backup),)
    with engine.begin() as db:
        journal = str(db.execute(select(EVENT)).all())
    kept = str(of_today(engine)) + journal
    for trace in ("R-07'", "R-07.", "R-07 ", "thumb", "106.5"):
        assert trace not in kept
    assert "R-071.1" in kept
    assert "99.50 99.50" in kept
    assert {row["id"]: row["state"] for row in shown(engine, "plates", DAY.date())}[f"{stands}.2"] == "withdrawn"
    assert [(row["job"], row["state"]) for row in shown(engine, "recipients", DAY.date())] == [
        ("R-071", "open"),
        (stands, "forgotten"),
    ]
    assert [row["job"] for row in recalled(engine, "L-9")] == [stands]
    assert shown(engine, "spools", DAY.date())[0]["left_g"] == left_g
    assert shown(engine, "due", DAY.date()) == []
    engine.dispose()
    if "://" not in where:
        files = [path for path in tmp_path.iterdir() if path.name.startswith("ledger.db")]
        assert all(b"thumb" not in path.read_bytes() and b"R-07." not in path.read_bytes() for path in files)

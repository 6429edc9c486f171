"""A recipient is forgotten: no table, no line of the journal and no byte of the file holds the code or a measure."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import select

from planner.ledger import backed_up, forgotten, made, recalled, shown, told
from planner.ledger.tables import EVENT
from tests.ledger.telling import DAY, chapter, tell
from tests.ledger.test_journal import of_today


def test_no_trace_is_left_and_the_backups_that_hold_one_are_named(where: str, tmp_path: Path) -> None:
    """Of two recipients one is forgotten: the other stays, prints and grams stay under a code of nobody, a recall still works."""
    engine, backup = made(where), tmp_path / "kept.db"
    told(engine, [*chapter("R-07"), *chapter("R-071")[1:]], DAY)
    told(engine, [tell("done", "R-07.1"), tell("note", "R-07", text="strap too long, thumb of 58 mm")], DAY)
    told(engine, [tell("note", "R-071", text="the same strap as R-07"), tell("handed", "R-07", even_so=True)], DAY)
    backed_up(engine, backup, tell("backup", "ledger", path=str(backup)), DAY)
    left_g = shown(engine, "spools", DAY.date())[0]["left_g"]

    stands, backups = forgotten(engine, tell("forget", "R-07"), DAY)
    assert backups == (str(backup),)
    with engine.begin() as db:
        journal = str(db.execute(select(EVENT)).all())
    kept = str(of_today(engine)) + journal
    for trace in ("R-07'", "R-07.", "R-07 ", "thumb"):
        assert trace not in kept
    assert "R-071.1" in kept
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

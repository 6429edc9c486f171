"""The journal: each acknowledged event is there once, whatever happens to whoever tells it."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import select
from sqlalchemy.engine import Engine

from planner.errors import LedgerError
from planner.ledger import ToldSinceError, as_known, last_line, made, shown, told, told_since
from planner.ledger.journal import lines, rebuilt
from planner.ledger.tables import TODAY
from tests.ledger.telling import DAY, chapter, plate, tell
from tests.shapes import ROOT

WRITER = """
import sys
from datetime import datetime
from planner.ledger import Event, opened, told
engine = opened(sys.argv[1])
for n in range(int(sys.argv[3])):
    key = f"{sys.argv[2]}-{n}"
    event = Event(key=key, at=datetime(2026, 12, 1), kind="bought", subject="screw M3", body={"n": 1})
    told(engine, [event], datetime(2026, 12, 1))
    print(key, flush=True)
"""


def of_today(engine: Engine) -> dict[str, list[dict[str, Any]]]:
    """Return all rows of the tables of today."""
    with engine.begin() as db:
        return {
            table.name: sorted((dict(row) for row in db.execute(select(table)).mappings()), key=str) for table in TODAY
        }


def test_several_writers_of_which_one_is_killed_lose_no_acknowledged_event(where: str, tmp_path: Path) -> None:
    """Three processes write at once, one is killed midway: what each was told to be taken is there once, and so is the stock."""
    engine = made(where)
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    logs = [tmp_path / f"log{name}" for name in range(3)]
    writers = []
    for name, log in enumerate(logs):
        with log.open("w") as out:
            words = [sys.executable, "-c", WRITER, where, f"w{name}", "25"]
            writers.append(subprocess.Popen(words, stdout=out, env=environment))
    while len(logs[0].read_text().splitlines()) < 5 and writers[0].poll() is None:
        time.sleep(0.01)
    writers[0].send_signal(signal.SIGKILL)
    assert [writer.wait(timeout=120) for writer in writers[1:]] == [0, 0]
    writers[0].wait(timeout=10)
    acknowledged = [key for log in logs for key in log.read_text().splitlines()]

    with engine.begin() as db:
        keys = [event.key for _, _, event in lines(db)]
    assert len(keys) == len(set(keys))
    assert set(acknowledged) <= set(keys)
    assert len(acknowledged) <= len(keys) <= len(acknowledged) + 1  # the killed one may not have heard of its last
    assert [(row["name"], row["n"]) for row in shown(engine, "stock", DAY.date())] == [("screw M3", len(keys))]


def test_an_event_that_is_sent_again_is_not_taken_again(ledger: Engine) -> None:
    """Whoever is not sure sends it again: the spool loses its grams once."""
    done = tell("done", "R-07.1")
    told(ledger, chapter(), DAY)
    for _ in range(2):
        told(ledger, [done], DAY)

    assert [row["left_g"] for row in shown(ledger, "spools", DAY.date())] == [460.0]


def test_all_or_nothing_is_taken(ledger: Engine) -> None:
    """Of two events the second cannot be: the first is not taken either."""
    with pytest.raises(LedgerError, match=r"R-07\.9"):
        told(ledger, [*chapter(), tell("done", "R-07.9")], DAY)

    assert shown(ledger, "plates", DAY.date()) == []


def test_the_tables_of_today_follow_from_the_journal(where: str) -> None:
    """Made from the journal anew they are what the events made one by one, and yesterday is what was known then."""
    engine = made(where)
    told(engine, chapter(), DAY)
    later = DAY + timedelta(days=1)
    told(engine, [tell("failed", "R-07.1", cause="loose", ran_s=3600.0, lost={"jaw": 1})], later)
    told(engine, [tell("weighed", "S-1", left_g=431.0), tell("handed", "R-07", at=later, even_so=True)], later)
    before = of_today(engine)
    with engine.begin() as db:
        rebuilt(db)

    assert of_today(engine) == before
    then = as_known(engine, datetime(2026, 12, 1, 23))
    assert [row["state"] for row in shown(then, "plates", DAY.date())] == ["planned", "planned"]
    assert [row["state"] for row in shown(engine, "plates", DAY.date())] == ["failed", "planned"]


def test_a_plan_of_all_is_refused_where_anything_but_a_note_was_told_meanwhile(ledger: Engine) -> None:
    """Begun at a line; then a spool is weighed: refused, and told what; a note alone changes no plan."""
    told(ledger, chapter(), DAY)
    begun = last_line(ledger)
    told(ledger, [tell("note", "R-07", text="strap 20 mm shorter")], DAY)
    told(ledger, [tell("plates", "R-07", plates=[plate("R-07.1", jaw=2)])], DAY, begun, of_all=True)
    begun = last_line(ledger)
    told(ledger, [tell("weighed", "S-1", left_g=212.0)], DAY)

    with pytest.raises(ToldSinceError, match="S-1 weighed") as late:
        told(ledger, [], DAY, begun, of_all=True)
    assert late.value.since == told_since(ledger, begun)
    told(ledger, [], DAY, late.value.seen, of_all=True)

"""Events from the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from planner.ledger import opened, told
from tests.cli.running import run
from tests.ledger.telling import DAY, chapter, plate, tell


@pytest.fixture(name="folder")
def _folder(tmp_path: Path) -> Path:
    """Return a folder with a ledger of one recipient with two plates."""
    (tmp_path / "chapter.toml").write_text('[chapter]\nledger = "ledger.db"\n', encoding="utf-8")
    assert run("ledger", "ledger.db", "init", cwd=tmp_path).returncode == 0
    told(opened(str(tmp_path / "ledger.db")), chapter(), DAY)
    return tmp_path


def test_each_event_is_one_line_and_says_what_follows(folder: Path) -> None:
    """A plate, a failure, a spool, a purchase, a fitting, a hand-over and a note: exit code 0 and the figures of the day."""
    more = [plate("R-07.1", jaw=2), plate("R-07.2", 20.0, cap=1), plate("R-07.3", jaw=2), plate("R-07.4", jaw=2)]
    spool = tell("spool", "S-3", material="petg", colour="green", lot="L-3", left_g=900.0)
    told(opened(str(folder / "ledger.db")), [tell("plates", "R-07", plates=more), spool], DAY)
    rows = [
        (("done", "R-07.1", "--spool", "S-1", "--grams", "41.5", "--took", "2h10"), "458 g left"),
        (("failed", "R-07.2", "--at", "1h", "--cause", "loose", "--spool", "S-1"), "whole: nothing"),
        (("weighed", "S-1", "5"), "5 g left"),
        (
            ("done", "R-07.3", "--spool", "S-1", "--spool", "S-3"),
            "off spool S-1: 5.0 g; off spool S-3: 35.0 g; 0 g left",
        ),
        (("done", "R-07.4", "--spool", "S-3:11.5", "--grams", "11.5"), "854 g left on S-3"),
        (("weighed", "S-1", "212"), "212 g left"),
        (("weighed", "S-2", "1000", "--material", "petg", "--colour", "black", "--lot", "L-2"), "1000 g left"),
        (("bought", "screw M3x12", "50"), "screw M3x12 bought; 50 in stock"),
        (("bought", "screw M3x12", "-2"), "48 in stock"),
        (
            ("fitted", "R-07", "--when", "2026-01-30T17:00", "--even-so"),
            "although no plate brings cap x 1 (lost on R-07.2)",
        ),
        (
            ("handed", "R-07", "--when", "2026-01-31T17:00", "--even-so"),
            "2026-02-07, 2026-02-28, 2026-04-30, 2026-07-31",
        ),
        (("note", "R-07", "strap 20 mm shorter"), "R-07 note"),
    ]
    for words, says in rows:
        ran = run(*words, cwd=folder)
        assert ran.returncode == 0, ran.stderr
        assert says in ran.stdout
    stock = json.loads(run("ledger", "ledger.db", "show", "stock", "--json", "-", cwd=folder).stdout)
    assert stock["rows"] == [{"name": "screw M3x12", "n": 48.0}]


def test_forgetting_names_the_backups(folder: Path) -> None:
    """The backup that still holds the code is named, in JSON too."""
    told(opened(str(folder / "ledger.db")), [tell("backup", "ledger", path="/shelf/old.db")], DAY)
    gone = json.loads(run("forget", "R-07", "--json", "-", cwd=folder).stdout)

    assert gone["backups"] == ["/shelf/old.db"]
    assert run("done", "R-07.1", cwd=folder).returncode == 2
    assert run("done", f"{gone['stands']}.1", cwd=folder).returncode == 0


@pytest.mark.parametrize(
    "words",
    [
        ("done", "R-07.9"),
        ("failed", "R-07.1", "--at", "1h", "--cause", "lose"),
        ("failed", "R-07.1", "--at", "soon", "--cause", "loose"),
        ("failed", "R-07.1", "--at", "1h", "--cause", "loose", "--lost", "jaw:9"),
        ("done", "R-07.1", "--role", "boss"),
        ("done", "R-07.1", "--took", "soon"),
        ("done", "R-07.1", "--spool", "S-1:-3"),
        ("blocked", "bench-9", "--why", "new hot end"),
        ("done", "R-07.1", "--when", "2999-01-01"),
        ("weighed", "S-9", "212"),
        ("note", "R-07", "Anna Miller"),
        ("handed", "Anna"),
        ("nozzle", "bench-9", "0.6"),
        ("measured", "bench-9", "--material", "petg", "--nozzle", "0.4", "--until", "2027-03-01"),
        ("retired", "S-9"),
    ],
)
def test_what_cannot_be_is_one_sentence(folder: Path, words: tuple[str, ...]) -> None:
    """Exit code 2, nothing on stdout."""
    wrong = run(*words, cwd=folder)

    assert wrong.returncode == 2
    assert wrong.stdout == ""
    assert "Traceback" not in wrong.stderr

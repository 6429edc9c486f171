"""``ledger``: made, asked, carried and restored from the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from planner.ledger import opened, told
from tests.cli.running import run
from tests.ledger.telling import DAY, chapter, tell


def test_a_ledger_goes_round(tmp_path: Path) -> None:
    """Made, filled, backed up, damaged, restored, exported, imported, recalled: each is one command."""

    def do(*words: str) -> str:
        ran = run("ledger", *words, cwd=tmp_path)
        assert ran.returncode == 0, ran.stderr
        return ran.stdout

    assert "made" in do("ledger.db", "init")
    told(opened(str(tmp_path / "ledger.db")), [*chapter(), tell("done", "R-07.1")], DAY)
    do("ledger.db", "backup", "kept.db")
    (tmp_path / "ledger.db").write_bytes(b"\xff" * 9000)
    broken = run("ledger", "ledger.db", "show", "plates", cwd=tmp_path)
    assert broken.returncode == 2
    assert "restore" in broken.stderr
    assert "5 events" in do("ledger.db", "restore", "kept.db")
    do("ledger.db", "export", "out")
    do("other.db", "init")
    assert "took 5 of 5" in do("other.db", "import", "out")
    assert "R-07.1" in do("other.db", "recall", "L-9")
    assert "version" in do("other.db", "upgrade")
    for view in ("recipients", "printers", "spools", "stock", "plates", "due"):
        assert view in do("other.db", "show", view)
    before = json.loads(do("other.db", "show", "plates", "--known", "2020-01-01", "--json", "-"))
    assert before["rows"] == []


@pytest.mark.parametrize(
    "words",
    [
        ("initt",),
        ("backup",),
        ("init", "x"),
        ("show", "plate"),
        ("recall", "L-0"),
        ("backup", "b.db", "--known", "2020-01-01"),
        ("restore", "none.db"),
    ],
)
def test_what_is_wrong_is_one_sentence(tmp_path: Path, words: tuple[str, ...]) -> None:
    """An action or view that is not known, too few or too many words: exit code 2."""
    run("ledger", "ledger.db", "init", cwd=tmp_path)
    wrong = run("ledger", "ledger.db", *words, cwd=tmp_path)

    assert wrong.returncode == 2
    assert wrong.stdout == ""


def test_a_chapters_file_fills_a_ledger_again_later(tmp_path: Path) -> None:
    """A new printer and a new spool are taken; a spool that was weighed since keeps its grams."""
    path = tmp_path / "chapter.toml"
    path.write_text('[[spool]]\nid = "S-1"\nmaterial = "petg"\nleft_g = 600.0\n', encoding="utf-8")
    assert run("ledger", "ledger.db", "init", cwd=tmp_path).returncode == 0
    assert run("weighed", "S-1", "212", "--ledger", "ledger.db", cwd=tmp_path).returncode == 0
    more = '[[spool]]\nid = "S-2"\nmaterial = "petg"\nleft_g = 1000.0\n[[printer]]\nname = "bench-220"\n'
    path.write_text(path.read_text(encoding="utf-8") + more, encoding="utf-8")

    filled = run("ledger", "ledger.db", "fill", "chapter.toml", cwd=tmp_path)
    assert "1 printer and 1 spool" in filled.stdout
    again = run("ledger", "ledger.db", "fill", "chapter.toml", cwd=tmp_path)
    assert "nothing new" in again.stdout
    shown = json.loads(run("ledger", "ledger.db", "show", "spools", "--json", "-", cwd=tmp_path).stdout)
    assert [row["left_g"] for row in shown["rows"]] == [212.0, 1000.0]

"""``device``: what happens to a device, in one line each."""

from __future__ import annotations

from pathlib import Path

from planner.ledger import made, shown, told
from tests.cli.running import run
from tests.ledger.telling import DAY, chapter


def test_what_happens_to_a_device_is_one_line_and_what_cannot_be_is_refused(tmp_path: Path) -> None:
    """A failed test and a spoilt piece are kept; an unknown word, an option of another word: one sentence, exit code 2."""
    ledger, at = made(str(tmp_path / "ledger.db")), ("--ledger", "ledger.db")
    told(ledger, chapter(), DAY)
    for words in (("tested", "slips", "--failed"), ("spoilt", "cracked", "--lost", "jaw:1")):
        ran = run("device", "R-07", *words, *at, cwd=tmp_path)
        assert ran.returncode == 0, ran.stderr
        assert f"R-07 {words[0]}" in ran.stdout
    for wrong, says in ((("mended",), "repaired or ended"), (("asked", "--failed"), "tested alone")):
        ran = run("device", "R-07", *wrong, *at, cwd=tmp_path)
        assert ran.returncode == 2
        assert says in ran.stderr
    rows = shown(ledger, "devices", DAY.date())
    kept = [(row["what"], row["passed"], row["lost"]) for row in rows]
    assert kept == [("tested", False, {}), ("spoilt", None, {"jaw": 1})]

"""``plan --failed`` where there is a ledger: it is told, and no failure forgets another one's pieces."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Any

from planner.ledger import opened, told
from tests.cli.running import run
from tests.ledger.telling import DAY, tell


def _plates(chapter: Path) -> dict[str, tuple[str, Counter[str]]]:
    """Return state and pieces of every plate, as the ledger has them."""
    rows = json.loads(run("ledger", "ledger.db", "show", "plates", "--json", "-", cwd=chapter).stdout)["rows"]
    return {row["id"]: (row["state"], Counter(row["pieces"])) for row in rows}


def _failed(chapter: Path, number: int, *more: str) -> Any:
    """Say that a plate failed, and return what the plan of what is left tells."""
    words = ("plan", "--failed", str(number), "--at", "1min", *more, "r07/job.toml", "-o", "left", "--json", "-")
    done = run(*words, cwd=chapter)
    assert done.returncode in (0, 1), done.stderr
    return json.loads(done.stdout)


def _left(plan: Any) -> Counter[str]:
    """Return the pieces on the plates of a plan."""
    return Counter(copy["part"] for plate in plan["plates"] for copy in plate["placements"])


def test_a_failure_and_the_failure_of_its_reprint_are_told(chapter: Path) -> None:
    """The base fails twice, in between a block: all three pieces are planned again, and the ledger knows why.

    The first time it came off a spool that is retired: that is kept, as --even-so says that it is so.
    """
    run("chapter", ".", "-o", "out", cwd=chapter)
    retired = [tell("spool", "S-2", material="petg", colour="any", lot="", left_g=50.0), tell("retired", "S-2")]
    told(opened(str(chapter / "ledger.db")), retired, DAY)
    name = next(name for name, (_, pieces) in _plates(chapter).items() if pieces == Counter(base=1))
    left = _failed(chapter, int(name.split(".")[1]), "--cause", "loose", "--spool", "S-2", "--even-so")

    assert left["failed"]["event"]["kind"] == "failed"
    assert left["failed"]["event"]["despite"] == ["spool S-2 is retired"]
    assert _plates(chapter)[name][0] == "failed"
    assert _left(left) == Counter(base=1, block=2)
    run("chapter", ".", "-o", "out", cwd=chapter)
    again = next(n for n, (state, p) in _plates(chapter).items() if (state, p) == ("planned", Counter(base=1)))
    assert again != name
    blocks = next(n for n, (state, p) in _plates(chapter).items() if (state, p) == ("planned", Counter(block=2)))
    _failed(chapter, int(blocks.split(".")[1]), "--cause", "loose")
    assert _left(_failed(chapter, int(again.split(".")[1]), "--cause", "loose")) == Counter(base=1, block=2)
    assert {state for state, _ in _plates(chapter).values()} == {"failed"}


def test_a_plate_that_is_to_finish_runs_on(chapter: Path) -> None:
    """Power came back and one block is lost late in the print: it runs, and what to tell afterwards is said."""
    run("chapter", ".", "-o", "out", cwd=chapter)
    name = next(name for name, (_, pieces) in _plates(chapter).items() if pieces == Counter(block=2))
    number = name.split(".")[1]
    words = ("plan", "--failed", number, "--at", "20min", "--cause", "curled", "--lost", "block:1", "--left-out")
    told = run(*words, "r07/job.toml", "-o", "left", cwd=chapter)

    assert told.returncode in (0, 1), told.stderr
    assert f"{name} runs on" in told.stdout
    assert f"fitwright failed {name} --cause curled --lost 'block:1'" in told.stdout
    assert _plates(chapter)[name][0] == "running"
    assert run("failed", name, "--cause", "curled", "--lost", "block:1", cwd=chapter).returncode == 0


def test_a_plate_that_the_ledger_does_not_know_is_refused(chapter: Path) -> None:
    """Nothing was planned there, or another number is meant."""
    run("chapter", ".", "-o", "out", cwd=chapter)
    wrong = run("plan", "--failed", "9", "--at", "1h", "--cause", "loose", "r07/job.toml", "-o", "x", cwd=chapter)

    assert wrong.returncode == 2
    assert "no such plate is planned or runs" in wrong.stderr

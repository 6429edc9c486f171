"""A nozzle changed, a coupon measured, a spool retired, from the command line."""

from __future__ import annotations

import json
from pathlib import Path

from planner.ledger import made, told
from tests.cli.running import run
from tests.ledger.telling import DAY, chapter, tell


def test_machines_and_spools_are_told_in_one_line_each(tmp_path: Path) -> None:
    """What was told is shown: the coupon by printer, nozzle and material, the retired spool; a plate is taken off it only with --even-so."""
    printer = tell("printer", "bench-1", profile="bench-220", attended=[], calibrated_until=None)
    told(made(str(tmp_path / "ledger.db")), [*chapter(), printer], DAY)
    for words in (
        ("nozzle", "bench-1", "0.6"),
        ("measured", "bench-1", "--material", "petg", "--nozzle", "0.6", "--until", "2999-03-01"),
        ("retired", "S-1"),
    ):
        ran = run(*words, "--ledger", "ledger.db", cwd=tmp_path)
        assert ran.returncode == 0, ran.stderr
    coupons = json.loads(run("ledger", "ledger.db", "show", "coupons", "--json", "-", cwd=tmp_path).stdout)["rows"]
    row = {"printer": "bench-1", "nozzle_mm": 0.6, "material": "petg", "until": "2999-03-01", "valid": True}
    assert coupons == [row]

    done = ("done", "R-07.1", "--spool", "S-1", "--ledger", "ledger.db")
    refused = run(*done, cwd=tmp_path)
    assert refused.returncode == 2
    assert "spool S-1 is retired" in refused.stderr
    taken = run(*done, "--even-so", cwd=tmp_path)
    assert "although spool S-1 is retired" in taken.stdout


def test_a_blocked_printer_runs_again_once_its_coupon_is_measured(tmp_path: Path) -> None:
    """The ledger shows why it is blocked; a coupon with its readings, told by the filled-in form alone, sets it free."""
    printer = tell("printer", "bench-1", profile="bench-220", attended=[], calibrated_until=None)
    told(made(str(tmp_path / "ledger.db")), [*chapter(), printer], DAY)
    form = 'printer = "bench-1"\nmaterial = "petg"\nnozzle_mm = 0.4\ntaken = 2026-11-20\n'
    empty = '[[reading]]\nfeature = "u3"\nkind = "upright"\ndrawn_mm = 3\n'
    (tmp_path / "readings.toml").write_text(form + empty, encoding="utf-8")
    here = ("--ledger", "ledger.db")

    assert run("blocked", "bench-1", "--why", "new hot end", *here, cwd=tmp_path).returncode == 0
    shown = json.loads(run("ledger", "ledger.db", "show", "printers", "--json", "-", cwd=tmp_path).stdout)["rows"]
    assert [row["blocked"] for row in shown] == ["new hot end"]

    measured = ("measured", "bench-1", "--readings", "readings.toml", "--until", "2999-03-01", *here)
    nothing = run(*measured, cwd=tmp_path)
    assert (nothing.returncode, "no reading is filled in" in nothing.stderr) == (2, True)
    (tmp_path / "readings.toml").write_text(form + empty + "measured_mm = 2.8\n", encoding="utf-8")
    other = run(*measured, "--material", "pla", cwd=tmp_path)
    assert (other.returncode, "readings.toml says petg" in other.stderr) == (2, True)
    assert run(*measured, "--spool", "S-1", cwd=tmp_path).returncode == 0
    shown = json.loads(run("ledger", "ledger.db", "show", "printers", "--json", "-", cwd=tmp_path).stdout)["rows"]
    assert [row["blocked"] for row in shown] == [None]

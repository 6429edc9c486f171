"""``ledger LEDGER learned`` from the command line."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

from planner.ledger import made, told
from tests.cli.running import run
from tests.ledger.history.made_history import coupon, printer, prints
from tests.ledger.telling import DAY


def test_it_tells_numbers_drifts_and_what_is_missing(tmp_path: Path) -> None:
    """For people: since when a printer prints smaller; for programs the same with its interval; looking back, less."""
    months = {month: (0.20 if month < 5 else 0.26) + 0.004 * (-1) ** month for month in range(1, 10)}
    coupons = [coupon("bench-2", date(2026, month, 3), mm) for month, mm in months.items()]
    told(made(str(tmp_path / "ledger.db")), [printer("bench-1"), printer("bench-2"), *coupons], DAY)
    told(made(str(tmp_path / "more.db")), [printer("bench-1"), *prints("R-01", "bench-1", [1.1, None])], DAY)

    shown = run("ledger", "ledger.db", "learned", cwd=tmp_path)
    assert shown.returncode == 0, shown.stderr
    assert "drift: bench-2 prints upright bores 0.06 mm smaller since May 2026" in shown.stdout
    assert "not known: hours: no print tells how long it took" in shown.stdout
    answer = json.loads(run("ledger", "ledger.db", "learned", "--json", "-", cwd=tmp_path).stdout)
    assert [drift["what"] for drift in answer["drifts"]] == ["upright_mm"]
    (mine,) = [
        row
        for row in answer["learned"]
        if (row["what"], row["by"], row["name"]) == ("upright_mm", "printer", "bench-2")
    ]
    assert mine["low"] < mine["value"] < mine["high"]
    assert (mine["n"], mine["material"], mine["nozzle_mm"]) == (5, "petg", 0.4)

    rows = json.loads(run("ledger", "more.db", "learned", "--json", "-", cwd=tmp_path).stdout)["learned"]
    assert {row["what"] for row in rows} == {"time_ratio", "mass_ratio", "failure_per_hour"}
    before = run("ledger", "more.db", "learned", "--known", "2020-01-01", "--json", "-", cwd=tmp_path)
    assert json.loads(before.stdout)["learned"] == []

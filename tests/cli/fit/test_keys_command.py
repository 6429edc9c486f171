"""``fitwright keys`` as a person types it."""

from __future__ import annotations

import json
from pathlib import Path

from planner.job import key_tables
from planner.output import chapter_tables, plan_tables
from tests.cli.running import run


def test_all_keys_are_printed_in_80_columns_and_as_json(tmp_path: Path) -> None:
    """Every table with every key and its unit stands in both; the last line names the tables."""
    tables = (*key_tables(), *chapter_tables(), *plan_tables())
    shown = run("keys", "--json", "keys.json", cwd=tmp_path)
    told = json.loads((tmp_path / "keys.json").read_text(encoding="utf-8"))["tables"]

    assert shown.returncode == 0
    assert max(map(len, shown.stdout.splitlines())) <= 80
    for table, row in zip(tables, told, strict=True):
        assert table.heading in shown.stdout
        assert [(key.name, key.unit) for key in table.keys] == [(key["name"], key["unit"]) for key in row["keys"]]
        for key in table.keys:
            assert f"\n  {key.name}  " in shown.stdout


def test_one_table_is_printed_alone(tmp_path: Path) -> None:
    """``fitwright keys hardware`` has its bore in mm and nothing of a cord."""
    shown = run("keys", "hardware", cwd=tmp_path)

    assert "bore_mm  number in mm\n" in shown.stdout
    assert "bends_deg" not in shown.stdout


def test_a_typing_slip_is_one_sentence_and_exit_code_2(tmp_path: Path) -> None:
    """The nearest name is told."""
    shown = run("keys", "plan.json.plat", cwd=tmp_path)

    assert shown.returncode == 2
    assert shown.stdout == ""
    assert shown.stderr.strip() == (
        "fitwright: keys plan.json.plat: no table is called that; did you mean 'plan.json.plate'?"
    )

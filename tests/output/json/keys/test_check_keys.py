"""The reference of what ``check`` writes has just the keys that it writes, and only tables that are explained."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from typer.testing import CliRunner

from planner.cli.app import app
from planner.output.json.keys.check_keys import CHECK
from planner.output.json.keys.plan_keys import PLAN
from tests.rules.questions.guessed_device import guessed


def test_check_writes_the_keys_of_its_reference(tmp_path: Path) -> None:
    """For a bare folder: every key stands in the reference, each of its tables in that of the plan, with just its keys."""
    guessed(tmp_path / "device")
    CliRunner().invoke(app, ["check", str(tmp_path / "device"), "--json", str(tmp_path / "check.json"), "--quiet"])
    told: dict[str, Any] = json.loads((tmp_path / "check.json").read_text(encoding="utf-8"))
    rows = CHECK[""][1]

    assert told.keys() == rows.keys()
    for key, (takes, _) in rows.items():
        for table in re.findall(r"\{(\w+)\}", takes):
            entries = told[key] if isinstance(told[key], list) else [told[key]]
            assert all(entry.keys() == PLAN[table][1].keys() for entry in entries), (key, table)
    assert told["headline"]["hangs_on"]
    assert {question["id"] for question in told["questions"]} >= {"bores-3.2-through", "duty-covers"}
    assert all(finding["question_id"] for finding in told["findings"] if finding["evidence"] == "guessed")

"""``window`` and ``settings`` as JSON."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from tests.cli.running import run


def test_window_and_settings_answer_in_json(folder: Path) -> None:
    """Both carry their schema, and stdout carries JSON only."""
    windows: Any = json.loads(run("window", folder, "--json", "-").stdout)
    settings: Any = json.loads(run("settings", folder, "--json", "-").stdout)

    assert windows["schema"] == "fitwright/window/1"
    assert {part["part"] for part in windows["parts"]} == {"plate", "cuff", "front cover"}
    assert settings["schema"] == "fitwright/settings/1"
    assert len(settings["findings"]) > 20


def test_the_window_is_told_at_once_and_reboring_tried_when_asked(folder: Path) -> None:
    """Cutting and measuring parts again takes minutes, so it is done with ``--prove`` alone, and the window says so."""
    plain, again = run("window", folder), run("window", folder)

    assert "--prove cuts the parts" in " ".join(plain.stdout.split())
    assert again.stdout == plain.stdout
    assert "--prove cuts" not in run("window", folder, "--prove").stdout

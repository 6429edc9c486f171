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

"""``coupon``: the mesh and the form are written, and the next command is named."""

from __future__ import annotations

import json
from pathlib import Path

from typer.testing import CliRunner

from planner.cli.app import app


def test_mesh_and_form_are_written(tmp_path: Path) -> None:
    """Both files are where the JSON says, with one reading asked for each feature."""
    done = CliRunner().invoke(app, ["coupon", "-o", str(tmp_path), "--bore", "5.6", "--json", "-"])
    found = json.loads(done.stdout)

    assert done.exit_code == 0
    assert Path(found["mesh"]).is_file()
    assert Path(found["readings"]).read_text(encoding="utf-8").count("[[reading]]") == len(found["features"])
    assert 5.6 in [feature["drawn_mm"] for feature in found["features"]]


def test_the_next_command_is_named(tmp_path: Path) -> None:
    """What to print, what to fill in, and what to run then."""
    done = CliRunner().invoke(app, ["coupon", "-o", str(tmp_path)])

    assert "Then: fitwright calibrate" in done.stdout
    assert "without heating up" in done.stdout

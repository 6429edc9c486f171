"""``start``: a folder of meshes becomes a job with every guess marked."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.running import run


def test_start_writes_a_job_that_check_reads(folder: Path) -> None:
    """``start`` marks every guess, and its job gives the same verdict as the folder did."""
    started = run(
        "start", folder, "--measure", "cuff=58/62", "--side", "left", "--bed", "220x220x240", "--have", "pla,petg"
    )
    text = (folder / "job.toml").read_text(encoding="utf-8")
    checked = run("check", folder / "job.toml", "--json", "-")
    result: Any = json.loads(checked.stdout)

    assert started.returncode == 0, started.stderr
    assert text.count("GUESS") >= 6
    assert 'sha256 = "' in text
    assert result["scale_percent"] == pytest.approx(100 * 58 / 62)
    assert "bore.tight" in {finding["rule"] for finding in result["findings"]}
    assert run("start", folder).returncode == 2

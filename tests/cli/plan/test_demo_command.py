"""``demo``: the sample device is copied and planned."""

from __future__ import annotations

from pathlib import Path

from tests.cli.running import run_alone


def test_the_demo_is_planned(tmp_path: Path) -> None:
    """``demo`` copies the sample, plans it and says where the report is."""
    done = run_alone("demo", tmp_path / "heron")

    assert done.returncode == 0, done.stderr
    assert (tmp_path / "heron" / "plan" / "report.html").is_file()
    assert "report.html" in done.stdout
    assert max(len(line) for line in done.stdout.splitlines() if "report:" not in line) <= 80

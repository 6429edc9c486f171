"""``demo``: the sample device is copied and planned; the Heron itself is planned so by ``.ci/run``, from the README's block."""

from __future__ import annotations

from pathlib import Path

import pytest

import planner.job
from tests.cli.running import run
from tests.shapes import cuboid, written

SMALL = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'


def test_the_demo_is_planned(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """``demo`` copies the sample, here a small one, plans it, says where the report is, and plans again what is there."""
    shipped, sample = planner.job.shipped, tmp_path / "samples" / "heron"
    written(cuboid(30, 20, 5), sample / "a.stl")
    (sample / "job.toml").write_text(SMALL, encoding="utf-8")
    assert (shipped("sample_parts") / "heron" / "job.toml").is_file()
    monkeypatch.setattr(planner.job, "shipped", lambda name: sample.parent if name == "sample_parts" else shipped(name))
    for _ in range(2):
        done = run("demo", tmp_path / "heron")

        assert done.returncode == 0, done.stderr
        assert (tmp_path / "heron" / "plan" / "report.html").is_file()
        assert "report.html" in done.stdout
        assert max(len(line) for line in done.stdout.splitlines() if "report:" not in line) <= 80

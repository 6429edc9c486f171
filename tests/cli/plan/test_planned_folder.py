"""One job planned into its folder: what is to be told to a ledger needs one, and is refused before any work."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.cli.plan.planned_folder import Asked, planned
from planner.errors import CommandError
from planner.job import read_job
from planner.output import Out
from tests.shapes import cuboid, written


def test_a_spool_without_a_ledger_is_refused_before_planning(tmp_path: Path) -> None:
    """Nothing is written, and the sentence says what to add."""
    written(cuboid(20, 20, 20), tmp_path / "a.stl")
    text = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    job, folder = read_job(tmp_path / "job.toml"), tmp_path / "out"
    asked = Asked(path=job.path, job=job, out_dir=folder, paper="a4", risk=False, said={"even_so": True})
    with pytest.raises(CommandError, match="add --ledger"):
        planned(asked, Out(json_path="", quiet=True))
    assert not folder.exists()

"""``pattern``: files of the padding at size, or one sentence."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest
from typer.testing import CliRunner

from planner.cli.app import app
from planner.errors import JobError
from tests.pattern.shells import half_shell
from tests.shapes import written

HEAD = '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n'
PART = '[[part]]\nname = "cuff"\nmesh = "cuff.stl"\nduty = "shell"\nskin_side = true\n'
PAD = '[[padding]]\npart = "cuff"\nthickness_mm = 4.0\narea_mm2 = 9100.0\n'


def test_files_are_written_at_size(tmp_path: Path) -> None:
    """Half a pipe of 31 mm at 120 %, 4 mm thick: π (37.2 - 2) by 120 mm (circumference), within 0.1 mm."""
    written(half_shell(31, 3.2, 100), tmp_path / "cuff.stl")
    (tmp_path / "job.toml").write_text(HEAD + PART + PAD, encoding="utf-8")
    asked = ["pattern", str(tmp_path / "job.toml"), "--scale", "120", "-o", str(tmp_path / "out"), "--json", "-"]
    done = CliRunner().invoke(app, asked)
    (told,) = json.loads(done.stdout)["patterns"]

    assert done.exit_code == 0
    assert sorted(told["size_mm"]) == pytest.approx([math.pi * 35.2, 120.0], abs=0.1)
    assert all(Path(told[key]).is_file() for key in ("svg", "dxf", "buck"))


def test_a_job_without_padding_is_one_sentence(tmp_path: Path) -> None:
    """It names the table to add, and writes nothing."""
    written(half_shell(31, 3.2, 100), tmp_path / "cuff.stl")
    (tmp_path / "job.toml").write_text(HEAD + PART, encoding="utf-8")
    done = CliRunner().invoke(app, ["pattern", str(tmp_path / "job.toml"), "-o", str(tmp_path / "out")])

    assert isinstance(done.exception, JobError)
    assert "names no padding" in str(done.exception)
    assert not (tmp_path / "out").exists()

"""``learn``: the settings of a program that printed well stand in the job afterwards, and nothing else is changed."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.job import read_job, read_settings
from planner.mesh import placed
from planner.sourced import stated
from tests.cli.running import run
from tests.gcode.writer import Program
from tests.shapes import bored_plate, written

PLATE = bored_plate(30, 20, 6, [(10, 10, 5, 32)])
TEXT = '# mine\n[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\npose = [0, 0, -1]\n'


def test_a_programs_layer_height_comes_into_the_job_with_its_origin(tmp_path: Path) -> None:
    """Written with layers of 0.15 mm where the job has 0.2: told now and before, and read back from the job."""
    written(PLATE, tmp_path / "a.stl")
    (tmp_path / "job.toml").write_text(TEXT, encoding="utf-8")
    settings = replace(read_settings("standard-0.4", tmp_path), layer_height_mm=stated(0.15))
    Program().write(tmp_path / "good.gcode", [placed(PLATE, 60, 60, 20)], settings)
    done = run("learn", "good.gcode", "--job", "job.toml", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    (row,) = (line.split() for line in done.stdout.splitlines() if "layer_height_mm" in line.split()[:1])
    job = read_job(tmp_path / "job.toml")

    assert row == ["layer_height_mm", "0.15", "0.2"]
    assert job.settings.layer_height_mm.value == pytest.approx(0.15)
    assert "learnt from good.gcode" in (tmp_path / "job.toml").read_text(encoding="utf-8")
    assert (tmp_path / "job.toml").read_text(encoding="utf-8").startswith("# mine\n[job]")


def test_without_a_job_file_nothing_is_written(tmp_path: Path) -> None:
    """One sentence says how to make one."""
    (tmp_path / "good.gcode").write_text("G28\n", encoding="utf-8")
    done = run("learn", "good.gcode", "--job", "job.toml", cwd=tmp_path)

    assert done.returncode == 2
    assert "there is no job file" in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["good.gcode"]

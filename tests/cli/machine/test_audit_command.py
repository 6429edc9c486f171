"""``audit``: a program that prints the plan passes, one that prints something else does not, and each says so."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from planner.job import read_settings
from planner.mesh import placed
from tests.cli.running import run
from tests.gcode.writer import Program
from tests.shapes import bored_plate, written

PLATE = bored_plate(30, 20, 6, [(10, 10, 5, 32)])
TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n'
    '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\npose = [0, 0, -1]\n'
)


@pytest.fixture(name="folder")
def _folder(tmp_path: Path) -> Path:
    """Return a job of one part, with a program for it."""
    written(PLATE, tmp_path / "a.stl")
    (tmp_path / "job.toml").write_text(TEXT, encoding="utf-8")
    Program().write(tmp_path / "a.gcode", [placed(PLATE, 60, 60, 20)], read_settings("standard-0.4", tmp_path))
    return tmp_path


def test_the_plan_as_it_is_passes_and_another_size_does_not(folder: Path) -> None:
    """At 100 % the part's 6 mm are 30 layers of 0.2 mm; planned at 120 % the same program is too small."""
    right = run("audit", "a.gcode", "--job", "job.toml", "--json", "right.json", cwd=folder)
    wrong = run("audit", "a.gcode", "--job", "job.toml", "--scale", "120", cwd=folder)
    told = json.loads((folder / "right.json").read_text(encoding="utf-8"))

    assert right.returncode == 0, right.stdout
    assert "30 layers" in right.stdout
    assert told["verdict"] == "go"
    assert wrong.returncode == 1
    assert "What differs" in wrong.stdout


def test_a_plate_that_the_plan_has_not_is_one_sentence(folder: Path) -> None:
    """There is one plate; the second is refused with those that are."""
    done = run("audit", "a.gcode", "--job", "job.toml", "--plate", "2", cwd=folder)

    assert done.returncode == 2
    assert done.stderr.startswith("fitwright: ")
    assert len(done.stderr.splitlines()) == 1

"""The same job gives the same files: another order of sets, time zone, language, folder and number of cores."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from tests.shapes import ROOT, bored_plate, cuboid, written

JOB = """[job]
name = "Two plates"
printer = "bench-220"
material = "petg"
settings = "standard-0.4"

[[part]]
name = "arm"
mesh = "arm.stl"
count = 2
duty = "load"

[[part]]
name = "leg"
mesh = "leg.stl"
duty = "load"

[[part]]
name = "cover"
mesh = "cover.stl"
count = 3
duty = "cover"

[[hardware]]
name = "pivot"
kind = "binding-post"
diameter_mm = 5.0
bore_mm = 5.3
fit = "turning"
joins = ["arm", "leg"]

[[joint]]
between = ["leg", "arm"]
how = "turns"

[plan]
start = 2026-12-01T17:30:00
deadline = 2026-12-12
"""
RUNS = (
    {"PYTHONHASHSEED": "1", "TZ": "Asia/Tokyo", "LANG": "C", "cores": "0"},
    {"PYTHONHASHSEED": "2", "TZ": "America/Los_Angeles", "LC_ALL": "tr_TR.UTF-8", "cores": ""},
)


def _planned(folder: Path, given: dict[str, str]) -> dict[str, bytes]:
    """Plan the job in a folder, in a program of its own with nothing kept, and return all files."""
    folder.mkdir(parents=True)
    written(bored_plate(60, 16, 6, [(8, 8, 5.3, 48), (52, 8, 5.3, 48)]), folder / "arm.stl")
    written(bored_plate(40, 16, 6, [(8, 8, 5.3, 48)]), folder / "leg.stl")
    written(cuboid(30, 20, 3), folder / "cover.stl")
    (folder / "job.toml").write_text(JOB, encoding="utf-8")
    taskset = shutil.which("taskset")
    words = [sys.executable, "-m", "planner", "plan", str(folder / "job.toml"), "-o", str(folder / "plan"), "--quiet"]
    told = subprocess.run(
        [taskset, "-c", given["cores"], *words] if taskset and given["cores"] else words,
        cwd=ROOT,
        env={**os.environ, **given, "FITWRIGHT_CACHE": "off"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert told.returncode in (0, 1), told.stderr
    files = folder / "plan"
    return {path.relative_to(files).as_posix(): path.read_bytes() for path in files.rglob("*") if path.is_file()}


def test_the_same_job_gives_the_same_files(tmp_path: Path) -> None:
    """Two programs that differ in all that ought not to matter: every file to its last byte."""
    one, other = (_planned(tmp_path / name, given) for name, given in zip(("one", "zwei ä"), RUNS, strict=True))

    assert sorted(one) == sorted(other)
    assert [name for name in one if one[name] != other[name]] == []
    assert {"report.html", "plan.json", "bench/papers.pdf"} <= set(one)

"""The job that a path names: a file, its folder, or a folder of meshes."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from planner.cli.load_job import load, named
from planner.errors import JobError
from tests.shapes import cuboid, written

JOB = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\n'


def test_a_file_and_its_folder_are_one_job(tmp_path: Path) -> None:
    """The folder of a job.toml is that job; a percent that is tried replaces its own."""
    written(cuboid(20, 20, 20), tmp_path / "a.stl")
    assert load(tmp_path).guessed
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8")

    assert load(tmp_path).name == load(tmp_path / "job.toml").name == "x"
    assert load(tmp_path, percent=80.0).size.percent == 80.0


def test_what_is_wrong_with_one_of_several_names_its_path(tmp_path: Path) -> None:
    """All are called job.toml, so the whole path is said; what is not there is named, too."""
    (tmp_path / "job.toml").write_text("[nonsense]\n", encoding="utf-8")
    with pytest.raises(JobError) as caught:
        named(tmp_path / "job.toml", several=True)
    with pytest.raises(JobError, match="no such file or folder"):
        load(tmp_path / "nowhere.toml")

    assert str(caught.value).startswith(str(tmp_path / "job.toml"))


def test_a_job_is_read_without_what_measures_meshes(tmp_path: Path) -> None:
    """An answer that is kept needs the job alone: reading one loads neither the room of meshes nor what it stands on."""
    written(cuboid(20, 20, 20), tmp_path / "a.stl")
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8")
    told = (
        "import sys; from pathlib import Path; import planner.cli.kept_answer; from planner.cli.load_job import load; "
        "load(Path(sys.argv[1])); print(*(set(sys.argv[2:]) & set(sys.modules)))"
    )
    heavy = ["planner.mesh", "planner.plan", "planner.output", "trimesh", "scipy", "numba", "ortools"]

    run = subprocess.run(
        [sys.executable, "-c", told, str(tmp_path), *heavy], capture_output=True, text=True, check=True
    )

    assert run.stdout.split() == []

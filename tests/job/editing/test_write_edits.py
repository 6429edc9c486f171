"""Edits are written whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.errors import JobError
from planner.job import Edit, job_of_folder, read_job, read_printer, write_edits
from tests.conftest import MakeJob
from tests.shapes import cuboid, written

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]  # the only one\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'


def test_a_job_file_is_changed_in_place_with_its_comments(make_job: MakeJob) -> None:
    """Without another target the job's own file is written, and nothing else is left beside it."""
    job = make_job(TEXT, a=cuboid(10, 10, 10))
    path = write_edits(job, [Edit(table="part", name="a", put={"duty": "shell"})], "remedy 1")

    assert path == job.path
    assert 'duty = "shell" # remedy 1' in path.read_text(encoding="utf-8")
    assert "# the only one" in path.read_text(encoding="utf-8")
    assert {each.name for each in path.parent.iterdir()} == {"a.stl", "job.toml"}


def test_what_would_not_load_is_not_written(make_job: MakeJob) -> None:
    """The file stays as it was, to the byte."""
    job = make_job(TEXT, a=cuboid(10, 10, 10))
    before = job.path.read_bytes()

    with pytest.raises(JobError):
        write_edits(job, [Edit(table="part", name="a", put={"duty": "rope"})], "")
    assert job.path.read_bytes() == before
    assert {each.name for each in job.path.parent.iterdir()} == {"a.stl", "job.toml"}


def test_a_folder_gets_a_job_file(tmp_path: Path) -> None:
    """A job guessed from a folder is written as start would write it, with the edits."""
    written(cuboid(10, 10, 10), tmp_path / "a.stl")
    job = job_of_folder(tmp_path, printer=read_printer("bench-220", tmp_path))
    path = write_edits(job, [Edit(table="part", name="a", put={"duty": "cover"})], "remedy 1")

    assert path == tmp_path / "job.toml"
    assert read_job(path).parts[0].duty == "cover"

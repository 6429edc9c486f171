"""A folder of meshes as a job: one part a file, under names that differ."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.errors import CommandError
from planner.job import Printer, job_of_folder
from tests.shapes import cuboid, written


def test_every_mesh_is_a_part_and_equal_stems_are_told_apart(tmp_path: Path, printer: Printer) -> None:
    """Files of one stem in two folders get two names; hidden folders and other files are passed over."""
    for name in ("left", "right", ".old"):
        (tmp_path / name).mkdir()
        written(cuboid(10, 10, 10), tmp_path / name / "jaw.stl")
    (tmp_path / "readme.txt").touch()
    job = job_of_folder(tmp_path, printer=printer)

    assert len(job.parts) == len({part.name for part in job.parts}) == 2
    assert job.guessed


def test_a_folder_without_meshes_is_refused(tmp_path: Path, printer: Printer) -> None:
    """One sentence with the folder's name."""
    with pytest.raises(CommandError, match="no STL, 3MF, OBJ or PLY"):
        job_of_folder(tmp_path, printer=printer)

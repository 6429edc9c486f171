"""A folder of meshes as a job: one part a file, under names that differ."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace

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


def test_what_a_plan_or_another_job_left_behind_is_no_part(tmp_path: Path, printer: Printer) -> None:
    """A plan's plates and a re-bored job lie below the folder: they are passed over, and said to be."""
    for place in (
        "arm.stl",
        "grip/pad.stl",
        "plan/plates/plate-01.stl",
        "plan/parts/arm-90pc.stl",
        "rebored/parts/arm.stl",
    ):
        (tmp_path / place).parent.mkdir(parents=True, exist_ok=True)
        written(cuboid(10, 10, 10), tmp_path / place)
    (tmp_path / "plan" / "plan.json").write_text("{}", encoding="utf-8")
    (tmp_path / "rebored" / "job.toml").write_text("", encoding="utf-8")
    (tmp_path / "job.toml").write_text("", encoding="utf-8")
    job = job_of_folder(tmp_path, printer=printer)

    assert [part.name for part in job.parts] == ["arm", "pad"]
    assert [(note.what, note.why) for note in job.notes] == [
        ("meshes in plan", "a plan wrote it"),
        ("meshes in rebored", "it holds a job of its own"),
    ]


def test_a_file_that_builds_several_objects_makes_several_parts(tmp_path: Path, printer: Printer) -> None:
    """Each object is a part of its own with the copies that the file makes; one named as another file takes both."""
    for name in ("device.3mf", "jaw.stl"):
        (tmp_path / name).touch()
    inside = [SimpleNamespace(name="cuff", copies_n=1), SimpleNamespace(name="Jaw", copies_n=2)]
    job = job_of_folder(tmp_path, printer=printer, objects_in=lambda path: inside if path.suffix == ".3mf" else ())

    assert [(part.name, part.mesh.name, part.mesh_object, part.count) for part in job.parts] == [
        ("cuff", "device.3mf", "cuff", 1),
        ("device Jaw", "device.3mf", "Jaw", 2),
        ("jaw", "jaw.stl", "", 1),
    ]


def test_more_objects_than_a_device_has_parts_are_refused(tmp_path: Path, printer: Printer) -> None:
    """301 objects in one file: one sentence."""
    (tmp_path / "library.3mf").touch()
    inside = [SimpleNamespace(name=f"part {n}", copies_n=1) for n in range(301)]
    with pytest.raises(CommandError, match="301 objects"):
        job_of_folder(tmp_path, printer=printer, objects_in=lambda _path: inside)

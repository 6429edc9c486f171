"""A job's text for another folder finds the same files from there."""

from __future__ import annotations

from pathlib import Path

from planner.job import read_job
from planner.job.editing.moved_job import moved
from tests.shapes import cuboid, written

TEXT = (
    '# mine\n[job]\nname = "x"\nmaterial = "petg"  # at hand\nprinter = "bench-220"\n'
    '[[part]]\nname = "a"\nmesh = "parts/a.stl"\nduty = "load"\n'
)


def test_paths_are_told_from_the_new_folder_and_names_stay(tmp_path: Path) -> None:
    """A mesh is found from a folder beside; a shipped profile's name and the comments stay as they are."""
    (tmp_path / "old" / "parts").mkdir(parents=True)
    (tmp_path / "new").mkdir()
    written(cuboid(5, 5, 5), tmp_path / "old" / "parts" / "a.stl")
    text = moved(TEXT, tmp_path / "old", tmp_path / "new")
    (tmp_path / "new" / "job.toml").write_text(text, encoding="utf-8")

    assert 'mesh = "../old/parts/a.stl"' in text
    assert 'printer = "bench-220"' in text
    assert text.startswith("# mine\n")
    assert "# at hand" in text
    assert read_job(tmp_path / "new" / "job.toml").parts[0].mesh.is_file()


def test_in_the_same_folder_nothing_changes(tmp_path: Path) -> None:
    """The text is returned as it is, byte for byte."""
    assert moved(TEXT, tmp_path, tmp_path) == TEXT

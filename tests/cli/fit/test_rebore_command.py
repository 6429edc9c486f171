"""``rebore``: parts at scale are written, under names that a file can have."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from planner.cli.app import app
from planner.cli.fit.rebore_command import file_name
from planner.mesh import read_solid
from tests.shapes import cuboid, written


@pytest.mark.parametrize(("part", "name"), [("a/b", "a-b"), ("..", "part"), ("front cover", "front cover")])
def test_names_of_parts_become_names_of_files(part: str, name: str) -> None:
    """No slash, no dots alone."""
    assert file_name(part) == name


def test_parts_are_written_at_scale(tmp_path: Path) -> None:
    """30 mm at 90 % are 27 mm (by hand)."""
    written(cuboid(30, 20, 5), tmp_path / "a.stl")
    text = (
        '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
    )
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    CliRunner().invoke(app, ["rebore", str(tmp_path / "job.toml"), "--scale", "90", "-o", str(tmp_path / "out")])

    assert read_solid(tmp_path / "out" / "parts" / "a.stl").size_mm[0] == pytest.approx(27.0, abs=1e-3)


def test_a_folder_never_holds_parts_of_two_sizes(tmp_path: Path) -> None:
    """A part that the job no longer has goes with the next run; what a person laid there or changed stays."""
    job, out = tmp_path / "job.toml", tmp_path / "out"
    head = '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n'
    rows = [f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "cover"\n' for name in "abc"]
    for name in "abc":
        written(cuboid(30, 20, 5), tmp_path / f"{name}.stl")
    job.write_text(head + "".join(rows), encoding="utf-8")
    CliRunner().invoke(app, ["rebore", str(job), "--scale", "90", "-o", str(out)])
    (out / "mine.txt").write_text("mine", encoding="utf-8")
    (out / "parts" / "c.stl").write_bytes(b"changed")
    job.write_text(head + rows[0], encoding="utf-8")
    CliRunner().invoke(app, ["rebore", str(job), "--scale", "80", "-o", str(out)])

    assert read_solid(out / "parts" / "a.stl").size_mm[0] == pytest.approx(24.0, abs=1e-3)
    assert sorted(path.name for path in out.rglob("*.*")) == ["a.stl", "c.stl", "mine.txt", "rebored.json"]
    assert [path for path in tmp_path.iterdir() if path.name.startswith(".")] == []

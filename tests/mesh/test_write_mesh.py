"""Writing: whole and as meant, or not at all and the older file stays."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import lib3mf
import numpy as np
import pytest

from planner.errors import MeshError
from planner.mesh import copy_at, placed, read_solid, write_3mf, write_stl
from tests.shapes import bored_plate, cuboid


def test_five_copies_are_one_object_with_five_places(tmp_path: Path) -> None:
    """Read by the consortium's library: one mesh, five build items, each with its copy's name."""
    plate = bored_plate(20, 10, 4, [(5, 5, 3, 24)])
    write_3mf(tmp_path / "a.3mf", [copy_at(f"plate {k + 1}", plate, 30.0 * k, 5.0, 37.0 * k) for k in range(5)])
    model = lib3mf.get_wrapper().CreateModel()
    model.QueryReader("3mf").ReadFromFile(str(tmp_path / "a.3mf"))
    items, names = model.GetBuildItems(), []
    while items.MoveNext():
        names.append(items.GetCurrent().GetPartNumber())

    assert model.GetMeshObjects().Count() == 1
    assert names == [f"plate {k}" for k in range(1, 6)]


def test_turned_copies_read_back_where_they_lie(tmp_path: Path) -> None:
    """The standard's transform gives the same corners as placing the solid oneself."""
    plate = bored_plate(20, 10, 4, [(5, 5, 3, 24)])
    write_3mf(tmp_path / "a.3mf", [copy_at("a", plate, 50.0, 60.0, 33.0)])
    back, meant = read_solid(tmp_path / "a.3mf"), placed(plate, 50.0, 60.0, 33.0)

    assert back.bounds_mm == pytest.approx(meant.bounds_mm, abs=1e-4)
    assert back.volume_mm3 == pytest.approx(meant.volume_mm3, rel=1e-6)


def test_a_refused_file_leaves_the_older_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What does not read back as meant is not put in the place of a good file, and nothing else is left behind."""
    path = tmp_path / "a.stl"
    write_stl(path, [cuboid(10, 10, 10)])
    before = path.read_bytes()
    monkeypatch.setattr("planner.mesh.write_mesh.read_solid", lambda _: cuboid(10, 10, 9))

    with pytest.raises(MeshError, match="the file that was written is wrong"):
        write_stl(path, [cuboid(10, 10, 10)])
    assert path.read_bytes() == before
    assert [file.name for file in tmp_path.iterdir()] == ["a.stl"]


def test_what_was_lost_on_the_way_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Same box and less matter, or a hole: the sentence names it."""
    hollow = bored_plate(10, 10, 10, [(5, 5, 4, 24)])
    for back, word in (
        (hollow, "mm³ instead of"),
        (replace(cuboid(10, 10, 10), faults=("open at 3 edges",)), "open at"),
    ):
        monkeypatch.setattr("planner.mesh.write_mesh.read_solid", lambda _, back=back: back)
        with pytest.raises(MeshError, match=word):
            write_stl(tmp_path / "a.stl", [cuboid(10, 10, 10)])


def test_nothing_is_not_written(tmp_path: Path) -> None:
    """No solids: one sentence."""
    with pytest.raises(MeshError, match="nothing to write"):
        write_stl(tmp_path / "a.stl", [])
    with pytest.raises(MeshError, match="nothing to write"):
        write_3mf(tmp_path / "a.3mf", [])


def test_a_solid_is_a_value_and_leaves_the_callers_arrays_alone() -> None:
    """It hashes and compares as itself; the arrays it was made of stay writable."""
    cube = cuboid(1, 2, 3)
    vertices = np.array(cube.vertices_mm)
    other = replace(cube, vertices_mm=vertices)
    vertices[0] += 1.0

    assert len({cube, other}) == 2
    assert cube != other
    with pytest.raises(ValueError, match="read-only"):
        other.vertices_mm[0] = 0.0

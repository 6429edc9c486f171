"""3MF: placed copies of one object, with the unit that the file states."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.errors import MeshError
from planner.mesh import copy_at, write_3mf
from planner.mesh.formats.read_3mf import objects_of_3mf, parse_3mf
from tests.shapes import cuboid


def test_copies_come_back_where_they_were_placed(tmp_path: Path) -> None:
    """Two copies of a cube of 10 mm, 30 mm apart: 24 triangles over 40 mm (by hand)."""
    cube = cuboid(10, 10, 10)
    write_3mf(tmp_path / "a.3mf", [copy_at(f"cube {x:g}", cube, x, 0.0, 0.0) for x in (0.0, 30.0)])
    soup = parse_3mf((tmp_path / "a.3mf").read_bytes(), "a.3mf")
    used = soup.vertices[soup.faces.ravel()]

    assert len(soup.faces) == 24
    assert used[:, 0].max() - used[:, 0].min() == pytest.approx(40.0)
    assert soup.unit == "mm"


@pytest.mark.parametrize("raw", [b"", b"PK nothing"])
def test_what_is_no_archive_is_refused(raw: bytes) -> None:
    """One sentence."""
    with pytest.raises(MeshError, match=r"a\.3mf: "):
        parse_3mf(raw, "a.3mf")


def test_objects_have_their_names_and_one_is_read_where_it_stands(tmp_path: Path) -> None:
    """An arm once and two pins of one mesh, in the order of the build; a pin alone is 12 triangles about its place."""
    arm, pin = replace(cuboid(40, 10, 5), name="arm.stl"), replace(cuboid(10, 10, 10), name="pin#1/a")
    placed = [copy_at("a", arm, 0.0, 0.0, 0.0), copy_at("b", pin, 60.0, 0.0, 0.0), copy_at("c", pin, 90.0, 0.0, 0.0)]
    write_3mf(tmp_path / "a.3mf", placed)
    raw = (tmp_path / "a.3mf").read_bytes()
    alone = parse_3mf(raw, "a.3mf", "pin 1 a")

    assert [(one.name, one.copies_n) for one in objects_of_3mf(raw, "a.3mf")] == [("arm", 1), ("pin 1 a", 2)]
    assert len(alone.faces) == 12
    assert alone.vertices[:, 0].max() - alone.vertices[:, 0].min() == pytest.approx(10.0)
    assert 50.0 <= alone.vertices[:, 0].min() <= 60.0
    with pytest.raises(MeshError, match=r"no object in it is called 'amr'.*arm"):
        parse_3mf(raw, "a.3mf", "amr")


def test_objects_of_one_name_are_told_apart(tmp_path: Path) -> None:
    """Names repeat, or are missing, in files of others; a part needs one of its own."""
    solids = [replace(cuboid(10, 10, n), name=name) for n, name in ((5, "jaw"), (6, "Jaw"), (7, "//"))]
    write_3mf(tmp_path / "a.3mf", [copy_at(one.name, one, 20.0 * n, 0.0, 0.0) for n, one in enumerate(solids)])
    found = objects_of_3mf((tmp_path / "a.3mf").read_bytes(), "a.3mf")

    assert [one.name for one in found] == ["jaw", "Jaw 2", "object 3"]

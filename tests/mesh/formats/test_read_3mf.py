"""3MF: placed copies of one object, with the unit that the file states."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.errors import MeshError
from planner.mesh import copy_at, write_3mf
from planner.mesh.formats.read_3mf import parse_3mf
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

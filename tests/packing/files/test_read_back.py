"""Written plates are read back copy by copy, and a file that differs is refused and taken away."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.errors import MeshError
from planner.mesh import copy_at, write_3mf, write_stl
from planner.packing import Placement
from planner.packing.files.read_back import compare, copies_in_3mf, copies_in_stl
from tests.shapes import cuboid

BODY = cuboid(20, 10, 5)
PLACES = tuple(Placement(part="a", copy=c, x_mm=40.0 * c, y_mm=50.0, turn_deg=30.0 * c) for c in (1, 2))
N = [BODY.triangles_n, BODY.triangles_n]


def _files(folder: Path, places: tuple[Placement, ...]) -> tuple[Path, Path]:
    """Write placements as both files."""
    copies = [copy_at(f"{p.part} {p.copy}", BODY, p.x_mm, p.y_mm, p.turn_deg) for p in places]
    stl, mf = folder / "p.stl", folder / "p.3mf"
    write_stl(stl, [copy.at_place for copy in copies])
    write_3mf(mf, copies)
    return stl, mf


def test_what_was_meant_is_found(tmp_path: Path) -> None:
    """Both files hold every copy at its place."""
    stl, mf = _files(tmp_path, PLACES)

    compare(stl, copies_in_stl(stl, PLACES, N), PLACES, N)
    compare(mf, copies_in_3mf(mf), PLACES, N)
    assert [copy.name for copy in copies_in_3mf(mf)] == ["a 1", "a 2"]


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ((PLACES[0], replace(PLACES[1], x_mm=80.1)), "off its place"),
        ((PLACES[0], replace(PLACES[1], copy=1)), "as often as"),
        ((PLACES[0],), "as often as|triangles instead"),
    ],
)
def test_a_file_that_differs_is_refused_and_taken_away(
    tmp_path: Path, written: tuple[Placement, ...], told: str
) -> None:
    """A copy 0.1 mm off, one named twice, one missing: each is told, and the file is gone."""
    stl, mf = _files(tmp_path, written)

    with pytest.raises(MeshError, match=told):
        compare(mf, copies_in_3mf(mf), PLACES, N)
    assert not mf.exists()
    if written[-1].copy == 2 or len(written) == 1:
        with pytest.raises(MeshError, match=told):
            compare(stl, copies_in_stl(stl, PLACES, N), PLACES, N)

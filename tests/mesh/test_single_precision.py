"""Files: what a boolean leaves too near together for single precision is joined before it is written."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import manifold3d
import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from planner.mesh import Solid, write_3mf, write_stl
from planner.mesh.single_precision import in_single_precision, least_heights_mm
from planner.mesh.solid import arrays_of
from planner.mesh.stood_on_bed import copy_at
from tests.shapes import bored_plate

Raw = NDArray[np.float64]


def raw_facets(path: Path) -> Raw:
    """Return the corners (n, 3, 3) of a binary STL as they stand in the file, read by nothing of ours."""
    rows = np.fromfile(path, dtype=np.uint8)[84:].reshape(-1, 50)
    return rows[:, 12:48].copy().view("<f4").reshape(-1, 3, 3).astype(np.float64)


def odd_edges_n(facets: Raw) -> int:
    """Return how many edges do not join two facets once equal corners are one and flat facets are left out."""
    _, corner = np.unique(facets.reshape(-1, 3), axis=0, return_inverse=True)
    faces = corner.reshape(-1, 3)[least_heights_mm(facets) > 1e-8]
    edges = np.sort(faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    return int((np.unique(edges, axis=0, return_counts=True)[1] != 2).sum())


def refilled(turn: tuple[float, float, float], shift: tuple[float, float, float], s: float) -> Solid:
    """Return a lug whose bore was filled with a hull of its own corners and bored anew, then turned and moved."""
    lug = manifold3d.Manifold.cylinder(8, 10, 10, 32) + manifold3d.Manifold.cube((30, 20, 8)).translate((0, -10, 0))
    wide = manifold3d.Manifold.cylinder(10, 2.65, 2.65, 48).translate((0, 0, -1))
    body = (lug - wide).rotate(turn).translate(shift).scale((s, s, s))
    filler = manifold3d.Manifold.cylinder(8, 2.65 + 0.02 / s, 2.65 + 0.02 / s, 48)
    narrow = manifold3d.Manifold.cylinder(8.1, 2.4, 2.4, 64).translate((0, 0, -0.05))
    filler, narrow = (each.rotate(turn).translate(shift).scale((s, s, s)) for each in (filler, narrow))
    vertices_mm, faces = arrays_of(body + filler - narrow)
    return Solid(name="lug", vertices_mm=vertices_mm, faces=faces, sha256="")


@settings(max_examples=25, deadline=None)
@given(
    turn=st.tuples(*[st.floats(0, 360)] * 3),
    shift=st.tuples(*[st.floats(-90, 90)] * 3),
    s=st.floats(0.6, 1.8),
)
def test_a_written_file_is_closed_for_every_reader(
    tmp_path_factory: pytest.TempPathFactory,
    turn: tuple[float, float, float],
    shift: tuple[float, float, float],
    s: float,
) -> None:
    """Equal corners merged, flat facets dropped or not: each edge joins two facets, and trimesh finds a volume."""
    path = tmp_path_factory.mktemp("f") / "a.stl"
    solid = refilled(turn, shift, s)
    write_stl(path, [solid])
    facets = raw_facets(path)
    back: Any = trimesh.load(path)

    assert least_heights_mm(facets).min() > 1e-7
    assert odd_edges_n(facets) == 0
    assert back.is_watertight
    assert back.is_volume
    assert back.volume == pytest.approx(solid.volume_mm3, rel=1e-5)


def test_a_clean_solid_keeps_its_corners() -> None:
    """Nothing but the rounding happens to a solid without flat facets."""
    plate = bored_plate(20, 10, 4, [(5, 5, 3, 24)])
    found = in_single_precision(plate)

    assert found.triangles_n == plate.triangles_n
    assert np.abs(np.sort(found.corners_mm, axis=0) - np.sort(plate.corners_mm, axis=0)).max() < 1e-5


def test_an_unsound_solid_is_left_alone() -> None:
    """What is open is written as it was read: nothing is hidden."""
    plate = bored_plate(20, 10, 4, [(5, 5, 3, 24)])
    opened = Solid(name="a", vertices_mm=plate.vertices_mm, faces=plate.faces[1:], sha256="", faults=("open",))

    assert in_single_precision(opened) is opened


def test_a_corner_on_a_long_side_is_no_facet() -> None:
    """A box whose face is cut by a line through a corner that lies on an edge within rounding keeps its volume."""
    vertices_mm, faces = arrays_of(manifold3d.Manifold.cube((10, 10, 10)))
    a, b, c = (int(corner) for corner in faces[0])
    middle = vertices_mm[[a, b]].mean(axis=0) + 1e-9
    across = next(k for k, face in enumerate(faces) if k and {a, b} <= {int(corner) for corner in face})
    d = next(int(corner) for corner in faces[across] if corner not in (a, b))
    new = len(vertices_mm)
    faces = np.vstack([np.delete(faces, [0, across], axis=0), [[a, new, c], [new, b, c], [a, b, new], [b, a, d]]])
    solid = Solid(name="a", vertices_mm=np.vstack([vertices_mm, middle]), faces=faces, sha256="")
    found = in_single_precision(solid)

    assert solid.sound
    assert least_heights_mm(found.corners_mm).min() > 1e-7
    assert found.volume_mm3 == pytest.approx(1000.0)


def test_objects_of_a_3mf_are_closed_too(tmp_path: Path) -> None:
    """The 3MF of the same lug reads back without any repair."""
    solid = refilled((10.0, 20.0, 30.0), (40.0, -30.0, 5.0), 1.3)
    write_3mf(tmp_path / "a.3mf", [copy_at("a", solid, 60.0, 60.0, 17.0)])  # refuses what needs repair

    assert (tmp_path / "a.3mf").stat().st_size > 1000

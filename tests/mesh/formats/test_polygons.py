"""Polygons of OBJ and PLY: concave ones keep their shape, in text and binary."""

from __future__ import annotations

import struct
from pathlib import Path

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.errors import MeshError
from planner.mesh import read_solid
from planner.mesh.formats.polygons import triangles_of
from tests.mesh.formats.many_corners import Floats, band, round_of, spikes

Ring = list[tuple[float, float]]
L: Ring = [(0, 0), (30, 0), (30, 10), (10, 10), (10, 30), (0, 30)]
U: Ring = [(0, 0), (30, 0), (30, 30), (20, 30), (20, 10), (10, 10), (10, 30), (0, 30)]
DART: Ring = [(0, 0), (20, 10), (0, 20), (5, 10)]


def _prism(ring: Ring, high: float) -> tuple[list[tuple[float, float, float]], list[list[int]]]:
    """Return vertices and polygons of a prism over a ring."""
    n = len(ring)
    points = [(x, y, z) for z in (0.0, high) for x, y in ring]
    sides = [[k, (k + 1) % n, n + (k + 1) % n, n + k] for k in range(n)]
    return points, [list(range(n))[::-1], list(range(n, 2 * n)), *sides]


def _written(ring: Ring, path: Path) -> Path:
    """Write a prism of 10 mm as OBJ, PLY, or binary PLY (ending .ply and a name with "binary")."""
    points, polygons = _prism(ring, 10.0)
    if path.suffix == ".obj":
        lines = [f"v {x} {y} {z}" for x, y, z in points]
        path.write_text(
            "\n".join(lines + ["f " + " ".join(f"{k + 1}//1" for k in polygon) for polygon in polygons]),
            encoding="utf-8",
        )
        return path
    binary = "binary" in path.stem
    head = (
        f"ply\nformat {'binary_little_endian' if binary else 'ascii'} 1.0\nelement vertex {len(points)}\n"
        "property float x\nproperty float y\nproperty float z\n"
        f"element face {len(polygons)}\nproperty list uchar int vertex_indices\nend_header\n"
    )
    if binary:
        body = b"".join(struct.pack("<3f", *point) for point in points)
        body += b"".join(struct.pack(f"<B{len(p)}i", len(p), *p) for p in polygons)
        path.write_bytes(head.encode() + body)
    else:
        rows = [f"{x} {y} {z}" for x, y, z in points] + [" ".join(map(str, [len(p), *p])) for p in polygons]
        path.write_text(head + "\n".join(rows) + "\n", encoding="utf-8")
    return path


@pytest.mark.parametrize("name", ["a.obj", "a.ply"])
@pytest.mark.parametrize("ring", [L, U, DART], ids=["L", "U", "dart"])
def test_a_prism_over_a_concave_ring_is_whole(ring: Ring, name: str, tmp_path: Path) -> None:
    """Volume is the ring's area times ten, and the surface two areas and ten perimeters (shapely)."""
    solid, flat = read_solid(_written(ring, tmp_path / name)), shapely.Polygon(ring)

    assert solid.sound
    assert solid.volume_mm3 == pytest.approx(10 * flat.area)
    assert solid.area_mm2 == pytest.approx(2 * flat.area + 10 * flat.length)


def test_a_binary_ply_of_quads_is_the_text_one(tmp_path: Path) -> None:
    """A dart's sides and ends are quadrilaterals: both files give the same solid."""
    text, binary = read_solid(_written(DART, tmp_path / "a.ply")), read_solid(_written(DART, tmp_path / "binary.ply"))

    assert binary.volume_mm3 == pytest.approx(text.volume_mm3)
    assert binary.area_mm2 == pytest.approx(text.area_mm2)


def test_a_binary_ply_of_mixed_polygons_is_one_sentence(tmp_path: Path) -> None:
    """The parser reads none of those: the sentence says what to export instead."""
    with pytest.raises(MeshError, match="STL or 3MF"):
        read_solid(_written(L, tmp_path / "binary.ply"))


@settings(max_examples=60)
@given(radii=st.lists(st.floats(1.0, 10.0), min_size=5, max_size=24), lean=st.floats(-1.0, 1.0))
def test_any_star_shaped_polygon_keeps_its_area_in_any_plane(radii: list[float], lean: float) -> None:
    """The triangles' areas add up to the polygon's, so none lies outside of it (shapely)."""
    angles = np.arange(len(radii)) * 2 * np.pi / len(radii)
    flat = np.column_stack([np.array(radii) * np.cos(angles), np.array(radii) * np.sin(angles)])
    points = np.column_stack([flat, lean * flat[:, 0]])
    a, b, c = (points[triangles_of(points, [np.arange(len(radii))])[:, k]] for k in range(3))
    area = np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2

    assert area == pytest.approx(shapely.Polygon(flat).area * np.sqrt(1 + lean**2))


@pytest.mark.parametrize("line", ["f 0 1 2", "f 1 2 99", "f 1 2 500000000000", "f -9 1 2", "f 1 x 2", "v 1 2"])
def test_a_corner_that_does_not_exist_is_one_sentence(line: str, tmp_path: Path) -> None:
    """Index 0, one past the end, one beyond any memory, and words for numbers are refused."""
    path = tmp_path / "a.obj"
    path.write_text(f"v 0 0 0\nv 1 0 0\nv 0 1 0\n{line}\n", encoding="utf-8")
    with pytest.raises(MeshError, match=r"a\.obj"):
        read_solid(path)


@pytest.mark.parametrize("teeth_mm", [0.0, 0.5])
def test_a_round_of_very_many_corners_keeps_its_area(teeth_mm: float) -> None:
    """A round and a toothed one of 40,000 corners have n/2 r1 r2 sin(2 pi / n) (geometry)."""
    n, corners = 40_000, round_of(40_000, teeth_mm)
    assert _area_mm2(corners) == pytest.approx(n * 10.0 * (10.0 + teeth_mm) * np.sin(2 * np.pi / n) / 2)


@pytest.mark.parametrize("corners", [spikes(50_000), band(100_000, 8), band(50_000, 60)], ids=["spikes", "8", "60"])
def test_a_crooked_polygon_of_very_many_corners_keeps_its_area(corners: Floats) -> None:
    """Spikes and wound bands: the area is the shoelace's (shapely)."""
    assert _area_mm2(corners) == pytest.approx(shapely.Polygon(corners[:, :2]).area)


def _area_mm2(corners: Floats) -> float:
    """Return the area of a polygon's triangles, each of which must face up."""
    triangles = triangles_of(corners, [np.arange(len(corners))])
    a, b, c = (corners[triangles[:, k]] for k in range(3))
    twice_mm2 = np.cross(b - a, c - a)[:, 2]

    assert len(triangles) == len(corners) - 2
    assert twice_mm2.min() >= 0.0
    return float(twice_mm2.sum()) / 2


@pytest.mark.parametrize("n", [3_000, 30_000])
def test_a_large_crossed_polygon_still_closes(n: int) -> None:
    """With two corners swapped an outline crosses itself: its triangles have its sides once, and share all others."""
    angle = np.arange(n) * 2 * np.pi / n
    corners = np.column_stack([10.0 * np.cos(angle), 10.0 * np.sin(angle), np.zeros(n)])
    corners[[5, n // 2]] = corners[[n // 2, 5]]
    triangles = triangles_of(corners, [np.arange(n)])
    sides = np.stack([triangles, np.roll(triangles, -1, axis=1)], axis=2).reshape(-1, 2)
    alone = {(a, b) for a, b in sides.tolist()} - {(b, a) for a, b in sides.tolist()}

    assert len(triangles) == n - 2
    assert alone == {(k, (k + 1) % n) for k in range(n)}

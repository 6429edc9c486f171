"""A patch is split without a change of its surface, and parted along a line into one with a longer edge."""

from __future__ import annotations

import numpy as np
import pytest

from planner.pattern.cut_patch import near_mm, parted, split, walk
from tests.pattern.surfaces import cap, shell


@pytest.mark.parametrize("turn", [0.0, 0.3, 1.1])
def test_splitting_keeps_the_surface(turn: float) -> None:
    """Area and edge stay; every triangle lies on one side of the plane; each inner edge has two triangles (Euler)."""
    bare = cap(40, 50, 8)
    normal = np.array([np.cos(turn), np.sin(turn), 0.0])
    fine = split(bare, bare.vertices_mm[0], normal, near_mm(bare))
    side = (fine.vertices_mm - bare.vertices_mm[0]) @ normal
    of_face = np.where(np.abs(side) <= near_mm(bare), 0.0, side)[fine.faces]

    assert fine.area_mm2 == pytest.approx(bare.area_mm2)
    assert not ((of_face.max(axis=1) > 0) & (of_face.min(axis=1) < 0)).any()
    assert len(fine.loops) == 1
    edges = {
        tuple(sorted(pair)) for face in fine.faces.tolist() for pair in zip(face, face[1:] + face[:1], strict=True)
    }
    assert len(fine.vertices_mm) - len(edges) + len(fine.faces) == 1


def test_a_chain_from_the_edge_parts_the_sheet_without_cutting_it_in_two() -> None:
    """Half a pipe, slit along half its length: its edge is longer by twice the slit, its area the same (Euclid)."""
    bare = shell(30, 30, 100, 180, n=12, rows=11)
    line = np.flatnonzero(np.abs(bare.vertices_mm[:, 1]) < 1e-6)
    start = int(line[np.argmin(bare.vertices_mm[line, 2])])
    on = np.zeros(len(bare.vertices_mm), dtype=bool)
    on[line] = True
    chain = walk(bare, start, on, bare.vertices_mm[:, 2] >= 50.0 - 1e-6)
    slit, ((left, right),) = parted(bare, [chain])

    def edge_mm(patch: object) -> float:
        points = patch.vertices_mm  # type: ignore[attr-defined]
        (loop,) = patch.loops  # type: ignore[attr-defined]
        return float(np.linalg.norm(points[loop] - np.roll(points[loop], 1, axis=0), axis=1).sum())

    assert len(chain) == len(left) == len(right) == 6
    assert slit.area_mm2 == pytest.approx(bare.area_mm2)
    assert edge_mm(slit) == pytest.approx(edge_mm(bare) + 2 * 50.0)
    assert len(slit.vertices_mm) == len(bare.vertices_mm) + 5

"""The mesher as a program: what it writes, and that its end is no end of ours."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from planner.strength.elements import mesher_alone
from tests.shapes import cuboid, written


def test_a_surface_is_meshed_into_a_file_and_damage_ends_the_program_alone(tmp_path: Path) -> None:
    """Nodes and tetrahedra of a cuboid; no mesh, or too many triangles, end with exit codes and write nothing."""
    surface = written(cuboid(6.0, 5.0, 4.0), tmp_path / "box.stl")
    np.save(tmp_path / "places.npy", np.zeros((0, 4)))
    (tmp_path / "no.stl").write_text("no mesh", encoding="utf-8")
    ended = []
    for name, out, most_n in (
        (surface, "mesh.npz", 500),
        (tmp_path / "no.stl", "none.npz", 500),
        (surface, "many.npz", 9),
    ):
        files = [str(name), str(tmp_path / out), "3.0", str(tmp_path / "places.npy"), str(most_n)]
        words = [sys.executable, "-P", mesher_alone.__file__, *files]
        ended.append(subprocess.run(words, capture_output=True, check=False).returncode)
    with np.load(tmp_path / "mesh.npz") as mesh:
        corners = mesh["nodes_mm"][mesh["corners"]]

    assert ended == [0, mesher_alone.EMPTY, mesher_alone.TOO_MANY]
    assert not any((tmp_path / out).exists() for out in ("none.npz", "many.npz"))
    assert np.abs(np.linalg.det(corners[:, 1:] - corners[:, :1])).sum() / 6.0 == pytest.approx(120.0)

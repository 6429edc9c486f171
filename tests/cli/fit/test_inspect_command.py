"""``inspect``: what meshes measure, and a hold on a doubtful unit."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.running import run
from tests.shapes import Manifold, bored_plate, cuboid, solid_of, written


def test_inspect_measures_within_one_percent(tmp_path: Path) -> None:
    """A plate with bores comes back with volume, wall and bores."""
    path = written(bored_plate(60, 40, 4, [(20, 20, 5.3, 48)]), tmp_path / "plate.stl")
    mesh: Any = json.loads(run("inspect", path, "--json", "-").stdout)["meshes"][0]

    assert mesh["watertight"]
    assert mesh["volume_mm3"] == pytest.approx(60 * 40 * 4 - 48 / 2 * 2.65**2 * 0.13053 * 4, rel=0.01)
    assert mesh["walls"]["least_mm"] == pytest.approx(4.0, rel=0.01)
    assert mesh["bores"][0]["drawn_diameter_mm"] == pytest.approx(5.3, rel=0.01)
    assert mesh["bores"][0]["through"]
    assert set(mesh["walls"]["area_below_mm2"]) == {"0.45", "0.9", "1.35"}


def test_inspect_holds_on_a_doubtful_unit(tmp_path: Path) -> None:
    """A part of 5 mm asks for its unit, exit code 1; with --unit inch it is 127 mm."""
    path = written(cuboid(5, 2.5, 1.4), tmp_path / "a.stl")

    assert run("inspect", path).returncode == 1
    assert json.loads(run("inspect", path, "--unit", "inch", "--json", "-").stdout)["meshes"][0]["size_mm"][0] == 127.0


def test_two_bodies_in_one_file_are_one_part(tmp_path: Path) -> None:
    """A printed-in-place pair is measured as it is."""
    pair = solid_of(Manifold.cube((20, 20, 5)) + Manifold.cube((20, 20, 5)).translate((30, 0, 0)))
    mesh: Any = json.loads(run("inspect", written(pair, tmp_path / "p.stl"), "--json", "-").stdout)["meshes"][0]

    assert mesh["bodies"] == 2

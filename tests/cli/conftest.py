"""A folder of strange meshes for all commands."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.shapes import bored_plate, cuboid, cylinder, solid_of, written


@pytest.fixture(name="folder")
def _folder(tmp_path: Path) -> Path:
    """Return a folder of strange meshes."""
    folder = tmp_path / "strange"
    folder.mkdir()
    written(bored_plate(60, 40, 8, [(10, 10, 3.4, 48), (50, 30, 3.4, 48)]), folder / "plate.stl")
    written(solid_of(cylinder(70, 60, 96) - cylinder(62, 80, 96).translate((0, 0, -5))), folder / "cuff.stl")
    written(cuboid(30, 12, 5), folder / "front cover.stl")
    return folder

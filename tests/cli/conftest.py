"""A folder of strange meshes, and a chapter of one small job with its ledger, for all commands."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.running import run
from tests.cli.small_chapter import CHAPTER
from tests.shapes import bored_plate, cuboid, cylinder, solid_of, written

JOB = """
[job]
name = "blocks and a base"
recipient = "R-07"
material = "petg"
mesh_unit = "mm"
[size]
percent = 100.0
[[part]]
name = "base"
mesh = "base.stl"
duty = "cover"
[[part]]
name = "block"
mesh = "block.stl"
count = 2
duty = "cover"
[plan]
start = 2020-12-01T17:30:00
coupon = "never"
apart = [["base", "block"]]
"""


@pytest.fixture(name="folder")
def _folder(tmp_path: Path) -> Path:
    """Return a folder of strange meshes."""
    folder = tmp_path / "strange"
    folder.mkdir()
    written(bored_plate(60, 40, 8, [(10, 10, 3.4, 48), (50, 30, 3.4, 48)]), folder / "plate.stl")
    written(solid_of(cylinder(70, 60, 96) - cylinder(62, 80, 96).translate((0, 0, -5))), folder / "cuff.stl")
    written(cuboid(30, 12, 5), folder / "front cover.stl")
    return folder


@pytest.fixture(name="chapter")
def _chapter(tmp_path: Path) -> Path:
    """Return a chapter's folder with its ledger made."""
    job = tmp_path / "chapter" / "r07"
    job.mkdir(parents=True)
    written(bored_plate(40, 30, 4, []), job / "base.stl")
    written(cuboid(30, 20, 4), job / "block.stl")
    (job / "job.toml").write_text(JOB, encoding="utf-8")
    (job.parent / "chapter.toml").write_text(CHAPTER, encoding="utf-8")
    made = run("ledger", "ledger.db", "init", cwd=job.parent)
    assert made.returncode == 0, made.stderr
    return job.parent

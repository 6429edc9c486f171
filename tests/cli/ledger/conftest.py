"""A chapter's folder with one small job, and its ledger."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.running import run
from tests.cli.small_chapter import CHAPTER
from tests.shapes import bored_plate, cuboid, written

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

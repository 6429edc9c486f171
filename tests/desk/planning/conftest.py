"""A small chapter's folder, and a desk on it that plans."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from tests.cli.conftest import JOB
from tests.cli.small_chapter import CHAPTER
from tests.desk.planning.planning_desks import desk_on
from tests.shapes import bored_plate, cuboid, written


@pytest.fixture(name="folder")
def _folder(tmp_path: Path) -> Path:
    """Return a chapter's folder of one recipient, its ledger not made yet."""
    job = tmp_path / "r07"
    job.mkdir()
    written(bored_plate(40, 30, 4, []), job / "base.stl")
    written(cuboid(30, 20, 4), job / "block.stl")
    (job / "job.toml").write_text(JOB, encoding="utf-8")
    (tmp_path / "chapter.toml").write_text(CHAPTER, encoding="utf-8")
    return tmp_path


@pytest.fixture(name="desk")
def _desk(folder: Path) -> Iterator[TestClient]:
    with desk_on(folder) as client:
        yield client

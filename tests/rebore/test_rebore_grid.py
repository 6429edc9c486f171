"""Re-bored files: closed for other readers, every target bore certain, and what ``window`` says of them true.

Every part is tried at one size here; with ``FITWRIGHT_WHOLE_GRID=1`` at all seven, which takes a quarter of an hour.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from planner.job import read_job
from tests.rebore.bored_parts import Bored, bored_parts
from tests.rebore.rebore_grid import SCALES_PERCENT, tried
from tests.shapes import written

WHOLE = os.environ.get("FITWRIGHT_WHOLE_GRID", "") not in ("", "0")
SAMPLE_PERCENT = {
    "lug": 130.0,
    "cuff": 117.0,
    "slanted plate": 70.0,
    "jaw": 82.0,
    "pipe": 130.0,
    "bracket": 130.0,
    "blind bores": 140.0,
    "dome": 94.0,
    "hinge": 70.0,
    "wheel": 130.0,
    "stepped plate": 103.0,
    "brace": 70.0,
    "plate of a linkage": 94.0,
    "angle block": 140.0,
}
AGREE = {"lug", "brace"}
PARTS = {part.name: part for part in bored_parts()}
CELLS = [(name, percent) for name in PARTS for percent in (SCALES_PERCENT if WHOLE else (SAMPLE_PERCENT[name],))]


@pytest.mark.parametrize(("name", "percent"), CELLS)
def test_a_rebored_file_keeps_every_promise(name: str, percent: float, tmp_path: Path) -> None:
    """Trimesh loads it watertight, each target bore is certain and as wide as announced, and ``window`` agrees."""
    part: Bored = PARTS[name]
    written(part.solid, tmp_path / "a.stl")
    (tmp_path / "job.toml").write_text(part.job_text, encoding="utf-8")
    cell = tried(read_job(tmp_path / "job.toml"), percent, tmp_path / "out.stl", agree=WHOLE or name in AGREE)

    assert cell.changed_n + len(cell.kept) >= len(part.sizes_mm)
    assert not cell.wrong


def test_every_part_has_its_size() -> None:
    """The sample names each part once, at a size of the grid."""
    assert set(SAMPLE_PERCENT) == set(PARTS)
    assert set(SAMPLE_PERCENT.values()) <= set(SCALES_PERCENT)

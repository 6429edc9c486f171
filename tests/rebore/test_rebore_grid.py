"""Re-bored files: closed for other readers, every target bore certain, and ``window`` and ``rebore`` agree both ways.

Every part is tried at one size here, and ``window`` asked of one part; with ``FITWRIGHT_WHOLE_GRID=1`` at all seven, which takes a quarter of an hour.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from planner.job import read_job
from tests.rebore.bored_parts import Bored, bored_parts
from tests.rebore.rebore_grid import SCALES_PERCENT, broken, tried
from tests.shapes import written

WHOLE = os.environ.get("FITWRIGHT_WHOLE_GRID", "") not in ("", "0")
SAMPLE_PERCENT = {
    "lug": 130.0,
    "cuff": 117.0,
    "slanted plate": 70.0,
    "jaw": 117.0,
    "pipe": 130.0,
    "bracket": 130.0,
    "blind bores": 140.0,
    "dome": 94.0,
    "hinge": 70.0,
    "wheel": 130.0,
    "stepped plate": 103.0,
    "brace": 103.0,
    "plate of a linkage": 94.0,
    "angle block": 140.0,
}
AGREE = {"brace"}
"""``window`` is asked of these, which takes most of the time."""
PARTS = {part.name: part for part in bored_parts()}


@pytest.mark.parametrize("name", PARTS)
def test_a_rebored_file_keeps_every_promise(name: str, tmp_path: Path) -> None:
    """Trimesh loads it watertight, each target bore is certain and as wide as announced, and ``window`` agrees.

    ``window`` asked at a size promises it just where ``rebore`` succeeds, and keeps what it promises of other sizes.
    """
    part: Bored = PARTS[name]
    written(part.solid, tmp_path / "a.stl")
    (tmp_path / "job.toml").write_text(part.job_text, encoding="utf-8")
    job, sizes = read_job(tmp_path / "job.toml"), SCALES_PERCENT if WHOLE else (SAMPLE_PERCENT[name],)
    cells = [tried(job, percent, tmp_path / "out.stl", agree=WHOLE or name in AGREE) for percent in sizes]

    for cell in cells:
        assert cell.changed_n + len(cell.kept) >= len(part.sizes_mm), cell.percent
        assert not cell.wrong, cell.percent
    assert not broken(cells)


def test_every_part_has_its_size() -> None:
    """The sample names each part once, at a size of the grid."""
    assert set(SAMPLE_PERCENT) == set(PARTS)
    assert set(SAMPLE_PERCENT.values()) <= set(SCALES_PERCENT)

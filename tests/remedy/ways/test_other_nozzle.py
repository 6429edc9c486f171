"""Another nozzle, with the lines and settings that it asks for, is written into the job and judged again."""

from __future__ import annotations

from pathlib import Path

from planner.job import read_job, write_edits
from planner.plan import prepare, proved_remedies
from planner.rules import check
from tests.conftest import MakeJob
from tests.remedy.devices import PART, TODAY
from tests.shapes import cuboid


def test_a_finer_nozzle_lays_the_lines_of_a_thin_wall(make_job: MakeJob, tmp_path: Path) -> None:
    """0.88 mm hold three lines of 0.29 mm, which 0.25 lays and 0.3 and 0.4 do not; its first layer is at most 0.21."""
    ready = prepare(make_job(PART, a=cuboid(40, 0.88, 30)), TODAY)
    (remedy,) = proved_remedies(ready).found
    changed = prepare(read_job(write_edits(ready.job, remedy.does, "", tmp_path / "new.toml")), TODAY)

    assert remedy.kind == "nozzle"
    assert remedy.does[0].put == {"nozzle_mm": 0.25}
    assert changed.job.printer.nozzle_mm.value == 0.25
    assert check(changed.bound, 100.0).verdict is remedy.leaves_verdict
    assert remedy.leaves_verdict.passes
    assert remedy.costs.minutes_min > 0.0

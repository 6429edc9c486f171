"""Records of an answer become edits that write the same records."""

from __future__ import annotations

from pathlib import Path

from planner.assembly.doubts.answer_edits import Answer
from planner.job import Hardware, LeftOpen, read_job, with_edits
from tests.conftest import MakeJob
from tests.shapes import cuboid


def test_what_is_written_reads_back_as_the_records(make_job: MakeJob, tmp_path: Path) -> None:
    """A screw and an opening of an answer stand in the job that its edits make, nothing in them guessed."""
    screw = Hardware(
        name="M3 screw", kind="machine-screw", diameter_mm=3.0, joins=("a",), bore_mm=3.4, fit="sliding", count=2
    )
    window = LeftOpen(name="window", parts=("a",), bore_mm=20.0)
    answer = Answer(name="m3-screw", text="", weight_factor=1.0, hardware=(screw,), left_open=(window,))
    job = make_job('[job]\nname = "x"\n[[part]]\nname = "a"\nmesh = "a.stl"\n', a=cuboid(30, 20, 6))
    after = with_edits(job, answer.edits)

    assert read_job(tmp_path / "job.toml").hardware == ()
    assert after.hardware == (screw,)
    assert after.left_open == (window,)
    assert answer.names == {("hardware", "M3 screw"), ("open", "window")}

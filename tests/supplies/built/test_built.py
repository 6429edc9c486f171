"""One record: what it lists is what the job names, and what goes with it."""

from __future__ import annotations

from pathlib import Path

from planner.job import read_job
from planner.supplies import built


def test_the_record_has_all_that_the_job_names_in_its_order(heron: Path) -> None:
    """The job's pieces come first; each other line goes with one of them; sixteen screws have what holds them."""
    job = read_job(heron)
    device = built(job, 1.065, ())
    names = [hardware.name for hardware in job.hardware]

    assert [line.name for line in device.hardware[: len(names)]] == names
    assert {line.goes_with for line in device.hardware[len(names) :]} <= set(names)
    nuts = sum(line.count for line in device.hardware if line.kind == "nut")
    screws = sum(line.count for line in device.hardware if line.kind == "machine-screw")
    assert nuts == screws == 16
    assert device.job.hardware == job.hardware

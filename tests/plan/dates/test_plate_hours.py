"""A bed that takes no plate: told once, with the way to give that printer some."""

from __future__ import annotations

from dataclasses import replace

from planner.job import read_printer
from tests.conftest import MakeJob
from tests.plan.jobs import job_text, planned
from tests.shapes import cuboid

JOB = job_text(("block", 18, "cover")).replace('"cover"\n', '"cover"\npose = [0, 0, -1]\n')


def test_a_smaller_printer_that_takes_no_plate_is_told_once_with_its_way(make_job: MakeJob) -> None:
    """Eighteen blocks of 60 by 40 fill more than a bed of 170; as the job's own printer it takes plates, and so says."""
    job = make_job(JOB, block=cuboid(60, 40, 3))
    small = read_printer("small-180", job.path.parent)
    plan = planned(replace(job, more_printers=(small,)))
    assert plan.clocks is not None
    told = [line for line in plan.clocks.barred if small.name in line]
    turned = replace(job, printer=small, more_printers=(job.printer,))
    other = planned(turned)
    assert other.clocks is not None

    assert len(told) == 1
    assert f"bed of {small.name}: with it as printer in [job], and {job.printer.name} in [plan] printers" in told[0]
    assert not [line for line in other.clocks.barred if "does not lie" in line or "no plate" in line]

"""The printers of a job: its own first, and one sentence for each that cannot run its plates."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.job import Material, Printer, printer_named, printers_of, read_printer
from planner.job.job_printers import why_not
from planner.sourced import stated
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\n'


def test_the_jobs_own_printer_comes_first_and_once(make_job: MakeJob) -> None:
    """Named twice it counts once; an unknown or empty name is the job's own."""
    job = make_job(TEXT, a=cuboid(20, 20, 20))
    small = read_printer("small-180", Path())
    several = replace(job, more_printers=(small, job.printer))

    assert printers_of(several) == (job.printer, small)
    assert printer_named(several, "small-180") == small
    assert printer_named(several, "") == job.printer


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"nozzle_mm": stated(0.6)}, "nozzle is 0.6 mm"),
        ({"nozzle_max_c": stated(200.0)}, "at the nozzle"),
        ({"bed_max_c": stated(40.0)}, "at the bed"),
        ({}, ""),
    ],
)
def test_one_that_cannot_says_why(
    make_job: MakeJob, printer: Printer, petg: Material, change: dict[str, object], word: str
) -> None:
    """Another nozzle, too cold a nozzle, too cold a bed; nothing for one that can."""
    job = make_job(TEXT, a=cuboid(20, 20, 20))
    other = replace(printer, name="other", **change)  # type: ignore[arg-type]
    reason = why_not(job, petg, other)

    assert word in reason
    assert bool(word) == bool(reason)


@pytest.mark.parametrize(
    ("own", "reaches_c", "excluded"),
    [("", 225.0, False), ("", 219.0, True), ("nozzle_c = 235.0", 230.0, True), ("nozzle_c = 222.0", 225.0, False)],
)
def test_a_printer_that_reaches_the_low_end_of_a_range_is_no_stranger(
    make_job: MakeJob, printer: Printer, petg: Material, own: str, reaches_c: float, excluded: bool
) -> None:
    """PETG prints from 220 °C (Loh, Sotayo and Pei 2021, table 2): 225 °C is enough, unless the job asks for more."""
    job = make_job(TEXT + f"[settings]\n{own}\n", a=cuboid(20, 20, 20))
    cooler = replace(printer, name="cooler", nozzle_max_c=stated(reaches_c))

    assert bool(why_not(job, petg, cooler)) is excluded

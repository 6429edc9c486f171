"""Spools: whose they are, and which colour they serve."""

from __future__ import annotations

from planner.schedule import Need, Reel
from planner.schedule.calendar.spool_records import suits


def test_a_spool_serves_its_colour_and_one_of_a_jobs_own_that_job_alone() -> None:
    """Green serves green and any; any serves all; the own spool of job 1 feeds nothing of job 0."""
    green, any_colour = Need(plate=1, colour="green", grams=1.0), Need(plate=1, colour="any", grams=1.0)

    def reel(colour: str, job: int | None = None) -> Reel:
        return Reel(name="S-1", colour=colour, left_g=100.0, job=job)

    assert suits(green, reel("green"))
    assert suits(green, reel("any"))
    assert suits(any_colour, reel("red"))
    assert not suits(green, reel("red"))
    assert suits(green, reel("green", job=0))
    assert not suits(green, reel("green", job=1))

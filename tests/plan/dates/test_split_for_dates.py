"""Plates parted for the dates: early enough, with as few plates as that takes, and only where it is asked for."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import date, datetime
from typing import Any

import pytest

from planner.errors import JobError
from planner.job import Job, Weights
from planner.packing import verify_plate
from planner.schedule import JobLoads, PlateLoad, forecast
from tests.conftest import MakeJob
from tests.plan.jobs import job_text, planned, under
from tests.shapes import cuboid

PLAN = 'deadline = 2026-12-04\nfirst_article = false\nattended = ["Mon-Fri 17:30-22:30", "Sat-Sun 08:00-23:00"]\n'
JOB = job_text(("block", 6, "cover"), plan=PLAN)


def _job(make_job: MakeJob, **calendar: Any) -> Job:
    """Return the job with some of its calendar changed."""
    return under(make_job(JOB, block=cuboid(60, 50, 20)), **calendar)


def _partitions(n: int, most: int) -> Iterator[tuple[int, ...]]:
    """Yield every way to part n equal pieces, the fullest plate first."""
    if not n:
        yield ()
    for first in range(min(n, most), 0, -1):
        for rest in _partitions(n - first, first):
            yield first, *rest


def test_one_weekend_plate_is_parted_for_the_evenings_where_it_would_be_late(make_job: MakeJob) -> None:
    """Whole it runs on Saturday, after the deadline; parted it is ready in time, every copy once, every plate holds."""
    job = _job(make_job)
    whole, parted = planned(_job(make_job, split="never")), planned(job)

    assert len(whole.plates) == 1
    assert whole.clocks is not None
    assert whole.clocks.ready is not None
    assert whole.clocks.ready.date() > date(2026, 12, 4)
    assert parted.clocks is not None
    assert parted.clocks.ready is not None
    assert parted.clocks.ready.date() <= date(2026, 12, 4)
    assert "instead of" in parted.parted_why
    assert not whole.parted_why
    copies = Counter((p.part, p.copy) for plate in parted.plates for p in plate.placements)
    assert len(copies) == 6
    assert set(copies.values()) == {1}
    rings = {part.part.name: part.outline_mm for part in parted.parts}
    for plate in parted.plates:
        assert not verify_plate(plate.placements, rings, bed=job.printer.bed, spacing_mm=4.0, brim_mm=0.0)


def test_no_parting_into_fewer_plates_meets_the_deadline(make_job: MakeJob) -> None:
    """Against every partition of the six pieces, each planned: exhaustive, so the number of plates is the least."""
    job = _job(make_job)
    parted = planned(job)
    assert job.calendar is not None
    assert parted.clocks is not None
    curve = planned(_job(make_job, split="never")).batches[0].curve
    takes = {n: seconds for point in curve for (n,), seconds in zip(point.plates, point.takes_s, strict=True)}
    steps = tuple(run.step for run in parted.clocks.steps or ())
    by_n = dict[int, list[int]]()
    for pieces in _partitions(6, 6):
        if not set(pieces) <= takes.keys():
            continue
        loads = tuple(
            PlateLoad(plate=k, takes_s={job.printer.name: takes[n]}, pieces_n=n) for k, n in enumerate(pieces, start=1)
        )
        asked = JobLoads(loads=loads, calendar=job.calendar, printers=(job.printer,), steps=steps)
        seen = forecast(asked)
        by_n.setdefault(len(pieces), []).append(seen.late_days)

    assert len(by_n) >= 4
    least = min(n for n, lates in by_n.items() if 0 in lates)
    assert len(parted.plates) == least > 1


@pytest.mark.parametrize("deadline", [None, date(2026, 12, 24)])
def test_nothing_is_parted_without_a_need(make_job: MakeJob, deadline: date | None) -> None:
    """As few plates as can be are the least work."""
    plan = planned(_job(make_job, deadline=deadline))

    assert len(plan.plates) == 1
    assert not plan.parted_why


def test_when_it_pays_is_ready_no_later_than_whole(make_job: MakeJob) -> None:
    """The earliest expected finish is looked for, with no deadline to ask for it."""
    whole, pays = (planned(_job(make_job, split=wish, deadline=None)) for wish in ("never", "when-it-pays"))
    assert whole.clocks is not None
    assert pays.clocks is not None

    assert len(pays.plates) > 1
    assert (pays.clocks.ready or datetime.max) < (whole.clocks.ready or datetime.min)  # noqa: DTZ901  only compared


def test_a_deadline_that_nothing_meets_is_come_near_to(make_job: MakeJob) -> None:
    """Parted plates are late by fewer days, and the caution says by how many."""
    whole, parted = (
        planned(_job(make_job, split=wish, deadline=date(2026, 12, 1))) for wish in ("never", "when-needed")
    )
    lates = [
        (plan.clocks.ready.date() - date(2026, 12, 1)).days
        for plan in (whole, parted)
        if plan.clocks is not None and plan.clocks.ready is not None
    ]

    assert lates[1] < lates[0]
    assert any(finding.rule == "plan.late" for finding in parted.findings)


def test_what_counts_decides_how_many_plates(make_job: MakeJob) -> None:
    """Where only changes count none is made; where only hours do, the device is ready sooner."""
    hours, changes = (
        planned(_job(make_job, split="when-it-pays", deadline=None, weights=weights))
        for weights in (Weights(), Weights(per_hour=0.0, per_change=1.0))
    )

    assert len(changes.plates) == 1 < len(hours.plates)


def test_weights_are_read_and_wrong_ones_refused(make_job: MakeJob) -> None:
    """The job says them by name; where nothing counts, one sentence says so."""
    read = make_job(JOB + "weigh = { hour = 2.0, change = 0.5 }\n", block=cuboid(60, 50, 20))

    assert read.calendar is not None
    assert read.calendar.weights == Weights(per_hour=2.0, per_change=0.5)
    for wrong in ("{ hour = 0.0 }", "{ hours = 1.0 }", "{ change = -1.0 }", "3"):
        with pytest.raises(JobError, match="weigh"):
            make_job(JOB + f"weigh = {wrong}\n", block=cuboid(60, 50, 20))


def test_a_split_that_would_end_a_job_days_sooner_is_told_and_kept(make_job: MakeJob) -> None:
    """In time with one plate on Saturday, ready days sooner with plates for the evenings: said, with what it costs."""
    far = {"deadline": date(2026, 12, 24)}
    plan = planned(_job(make_job, **far))
    assert plan.clocks is not None
    assert plan.clocks.ready is not None
    assert len(plan.plates) == 1
    told = [way for way in plan.clocks.ways if "when-it-pays" in way.what]
    done = planned(_job(make_job, split="when-it-pays", **far)).clocks

    assert plan.verdict.passes
    assert len(told) == len(plan.clocks.ways) == 1
    assert told[0].ready is not None
    assert told[0].ready.date() < plan.clocks.ready.date()
    assert "to change" in told[0].costs
    assert done is not None
    assert done.ready is not None
    assert done.ready <= told[0].ready
    assert done.ways == ()

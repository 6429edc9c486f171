"""What the ledger keeps of a plan."""

from __future__ import annotations

from planner.cli.ledger.kept_rows import job_body, made_of, plate_row, stood_of
from tests.conftest import MakeJob
from tests.plan.jobs import job_text, planned
from tests.shapes import cuboid


def test_a_kept_plate_is_the_plate_that_stood(make_job: MakeJob) -> None:
    """Its pieces, places, printer and nozzle are those of the plan, whose mesh and size tell what it is made as; no name is kept."""
    plan = planned(make_job(job_text(("block", 2, "cover")), block=cuboid(20, 20, 4)))
    row = plate_row(plan, 1, "R-07.1")
    stood = stood_of({**row, "start": None})

    assert stood.pieces == {"block": 2}
    assert {(p.x_mm, p.y_mm) for p in stood.placements} == {(p.x_mm, p.y_mm) for p in plan.plates[0].placements}
    assert row["nozzle_mm"] == plan.job.printer.nozzle_mm.value
    assert [piece["made_as"] for piece in row["pieces"]] == [made_of(plan)["block"]]
    kept = {"scale_percent", "deadline", "measures", "parts", "made", "overrides", "hours", "unattended", "items"}
    assert set(job_body(plan)) == kept

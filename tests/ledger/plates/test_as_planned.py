"""What the last plan said, and what went wrong since."""

from __future__ import annotations

from sqlalchemy.engine import Engine

from planner.ledger import as_planned, failures_since, told
from tests.ledger.telling import DAY, chapter, plate, tell


def test_what_failed_is_told_until_the_job_is_planned_again(ledger: Engine) -> None:
    """A failure is news for every job until its next plan; plates that are over are planned no more."""
    told(ledger, [*chapter(), tell("failed", "R-07.1", ran_s=60.0, cause="loose")], DAY)

    assert [row["id"] for row in as_planned(ledger, "R-07")] == ["R-07.2"]
    assert failures_since(ledger) == [{"plate": "R-07.1", "printer": "bench-1", "cause": "loose"}]
    told(ledger, [tell("plates", "R-07", plates=[plate("R-07.2", cap=1), plate("R-07.3", jaw=2)])], DAY)
    assert failures_since(ledger) == []

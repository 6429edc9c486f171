"""After a failure: finish or stop, what is printed again, and the plan of what is left."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from planner.plan import Failure, Plan, after_failure
from tests.conftest import MakeJob
from tests.plan.jobs import job_text, planned
from tests.shapes import cuboid


@pytest.fixture(name="plan")
def _plan(make_job: MakeJob) -> Plan:
    """Return one plate of three blocks."""
    return planned(make_job(job_text(("block", 3, "cover"), plan='coupon = "never"\n'), block=cuboid(40, 30, 6)))


def _failed(plan: Plan, share: float, lost: dict[str, int]) -> Failure:
    """Return a plate that failed after a share of its time."""
    return Failure(plate=1, at_s=share * plan.plates[0].duration_s.value, cause="loose", lost=lost)


def test_what_nobody_can_use_is_printed_again_and_what_was_laid_is_used_up(plan: Plan) -> None:
    """All three lost at a tenth: stop, and three to print; a tenth of the grams is gone, and the log has the plate."""
    after = after_failure(plan, _failed(plan, 0.1, {"block": 3}))
    left = Counter(p.part for plate in after.left.plates for p in plate.placements)
    grams = plan.plates[0].mass_g

    assert after.mishap.does == "stop"
    assert (after.again, left, after.done) == ({"block": 3}, {"block": 3}, ())
    assert grams is not None
    assert sum(after.left.stage.printed.used_g.values()) == pytest.approx(0.1 * grams.value)
    assert (after.logged.failed, after.logged.pieces_n, dict(after.logged.lost)) == (True, 3, {"block": 3})
    assert after.logged.failed_at_h == pytest.approx(0.1 * plan.plates[0].duration_s.value / 3600.0)


def test_near_its_end_a_plate_with_one_lost_piece_is_finished(plan: Plan) -> None:
    """At 97 % two good pieces are minutes away: only the lost one is printed again, and what is left begins when it ends."""
    after = after_failure(plan, replace(_failed(plan, 0.97, {"block": 1}), leaves_out=True))
    before, left = plan.runs[0], after.left.runs[0]

    assert after.mishap.does == "finish"
    assert after.again == {"block": 1}
    assert Counter(p.part for plate in after.left.plates for p in plate.placements) == {"block": 1}
    assert before.end is not None
    assert left.start is not None
    assert left.start >= before.end.replace(tzinfo=left.start.tzinfo)

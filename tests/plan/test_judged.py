"""Judged again: what is left after a failure has the findings, the sums and the verdict of its own plates and dates."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

import pytest

from planner.finding import Verdict, worst
from planner.job import Spool, read_job
from planner.plan import Failure, Plan, after_failure
from tests.conftest import MakeJob
from tests.plan.jobs import job_text, planned, under
from tests.shapes import Manifold, cuboid, solid_of, written

PLAN = 'attended = ["Mon-Sun 17:30-22:30"]\ncoupon = "never"\napart = [["block", "lid"]]\n'
JOB = job_text(("block", 4, "load"), ("lid", 2, "cover"), plan=PLAN)


@pytest.fixture(name="plan", scope="module")
def _plan(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    """Plan two plates with a deadline on the very day on which the device is ready, and a spool that holds both."""
    folder = tmp_path_factory.mktemp("blocks")
    written(cuboid(60, 40, 12), folder / "block.stl")
    written(cuboid(50, 50, 2), folder / "lid.stl")
    (folder / "job.toml").write_text(JOB, encoding="utf-8")
    job = read_job(folder / "job.toml")
    bare = planned(job)
    assert bare.clocks is not None
    assert bare.clocks.ready is not None
    assert bare.totals.mass_g is not None
    spool = Spool(material="petg", colour="green", left_g=2.0 * bare.totals.mass_g.value)
    plan = planned(replace(under(job, deadline=bare.clocks.ready.date()), spools=(spool,)))
    assert len(plan.plates) == 2
    assert "plan.late" not in {finding.rule for finding in plan.findings}
    return plan


def _failed(plan: Plan, index: int, cause: str = "shifted", **more: object) -> Plan:
    """Return what is left after the plate that runs first (0) or last (-1) failed at its end."""
    number = sorted(plan.runs, key=lambda run: str(run.start))[index].plate
    plate = next(plate for plate in plan.plates if plate.number == number)
    failure = Failure(plate=number, at_s=plate.duration_s.value, cause=cause, lost={})
    return after_failure(plan, replace(failure, **more)).left  # type: ignore[arg-type]


def test_what_hangs_on_no_plate_is_asked_once(plan: Plan) -> None:
    """Windows, what widens them and the remedies of what is left are those of the plan: the very same records."""
    left = after_failure(plan, Failure(plate=1, at_s=60.0, cause="shifted", lost={})).left

    assert left.window is plan.window
    assert left.part_windows is plan.part_windows
    assert left.widenings is plan.widenings
    assert left.remedies is plan.remedies


def test_a_failure_that_misses_the_deadline_says_so(plan: Plan) -> None:
    """The last plate printed again is ready days after the deadline that the plan kept: late by exactly these days."""
    left = _failed(plan, -1)
    assert left.clocks is not None
    assert left.clocks.ready is not None
    assert left.job.calendar is not None
    assert left.job.calendar.deadline is not None
    late = [finding.why for finding in left.findings if finding.rule == "plan.late"]
    days = (left.clocks.ready.date() - left.job.calendar.deadline) // timedelta(days=1)

    assert days > 0
    assert late == [f"the device is ready on {left.clocks.ready:%a %-d %b %H:%M}, {days} d after the deadline"]
    assert left.clocks.kept_percent is not None
    assert left.clocks.kept_percent < 100.0


def test_spools_and_sums_are_those_of_the_plates_left(plan: Plan) -> None:
    """Grams asked of the spool are the grams of the plates left with the reserve; totals and cost go down with them."""
    left = _failed(plan, -1)
    assert left.totals.mass_g is not None
    assert plan.totals.mass_g is not None
    asked = [finding.measured for finding in left.findings if finding.rule == "spool.short"]
    reserve = plan.job.limits.spool_reserve.value

    assert left.totals.mass_g.value < plan.totals.mass_g.value
    assert asked == [pytest.approx(reserve * sum(p.mass_g.value for p in left.plates if p.mass_g))]
    assert left.cost is not None
    assert plan.cost is not None
    assert left.cost.device.value < plan.cost.device.value


def test_a_spool_that_holds_what_is_left_only_if_it_was_weighed_now_is_a_hold(plan: Plan) -> None:
    """By hand: what is left, with the reserve, and the grams used are more than left_g; no used gram, no question."""
    left = _failed(plan, -1)
    used = sum(left.stage.printed.used_g.values())
    assert left.totals.mass_g is not None
    need = left.totals.mass_g.value * plan.job.limits.spool_reserve.value
    verdicts = []
    for grams in (need - 1.0, need + 1.0, need + used - 1.0, need + used + 1.0):
        spools = (replace(plan.job.spools[0], left_g=grams),)
        job = replace(plan.job, spools=spools)
        again = _failed(replace(plan, stage=replace(plan.stage, job=job)), -1)
        verdicts += [(f.verdict, "now" in f.question) for f in again.findings if f.rule == "spool.short"]

    assert used > need / 2
    hold, go = Verdict.HOLD, Verdict.GO
    assert verdicts == [(hold, False), (hold, True), (hold, True), (go, False)]


def test_verdict_and_questions_follow_the_findings_after_any_failure(plan: Plan) -> None:
    """First or last plate, again or finished: the verdict is that of the worst finding, worst first, none twice."""
    for index, cause in ((0, "shifted"), (-1, "shifted"), (0, "scarred")):
        left = _failed(plan, index, cause)
        severities = [finding.verdict.severity for finding in left.findings]

        assert left.verdict is worst(left.findings)
        assert all(a >= b for a, b in pairwise(severities))
        assert len(set(left.findings)) == len(left.findings)


def test_a_piece_printed_before_the_failure_is_still_proved_past_a_zone(make_job: MakeJob) -> None:
    """The bed rule alone holds a ring round a zone; its plate was proved and is printed, so nothing holds it after."""
    middle = ((100.0, 100.0), (120.0, 100.0), (120.0, 120.0), (100.0, 120.0))
    ring = solid_of(Manifold.cube((190, 190, 6)) - Manifold.cube((140, 140, 20)).translate((25, 25, -5)))
    text = JOB.replace("count = 4", "count = 1").replace("17:30-22:30", "06:00-23:00")
    job = make_job(text, block=ring, lid=cuboid(50, 50, 2))
    bed = replace(job.printer.bed, height_mm=140.0, zones_mm=(middle,))  # too low for a standing ring
    plan = planned(replace(job, printer=replace(job.printer, bed=bed)))
    left = _failed(plan, -1)
    told = [[f.verdict for f in some.findings if (f.rule, f.part) == ("bed.over", "block")] for some in (plan, left)]

    assert {p.part for plate in left.plates for p in plate.placements} == {"lid"}
    assert [f.verdict for f in plan.stage.sized.fit.findings if f.rule == "bed.over"] == [Verdict.HOLD, Verdict.GO]
    assert told == [[Verdict.GO], [Verdict.GO]]


def test_nothing_left_to_print_is_said_so(make_job: MakeJob) -> None:
    """The only plate finished with all its pieces: no plate, and the reason is not that none fits the bed."""
    text = JOB.replace('apart = [["block", "lid"]]\n', "")
    plan = planned(make_job(text, block=cuboid(60, 40, 12), lid=cuboid(50, 50, 2)))
    assert len(plan.plates) == 1
    left = _failed(plan, 0, "scarred")

    assert left.plates == ()
    assert left.totals.withheld == "nothing is left to print"

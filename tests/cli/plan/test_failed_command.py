"""Plans with a calendar on several printers, plates parted, and a plate that fails, as a person runs them."""

from __future__ import annotations

import io
import json
from collections import Counter
from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from rich.console import Console

from planner.calibrate import read_log
from planner.errors import CommandError, JobError
from planner.finding import Verdict
from planner.job import Job
from planner.output import plan_json
from planner.output.terminal.clocks_text import show_clocks
from planner.packing import verify_plate
from planner.plan import Failure, Plan, after_failure, make_plan, prepare, timing_findings
from planner.sourced import stated
from tests.cli.running import Done, run
from tests.conftest import MakeJob
from tests.plan.jobs import changed, job_text
from tests.shapes import cuboid, written

JOB = job_text(("block", 4, "load"), ("lid", 2, "cover"), plan="deadline = 2026-12-12\n")
EVENINGS = 'attended = ["Mon-Fri 17:30-22:30"]\n'


def _planned(job: Job) -> Plan:
    """Plan a job."""
    return make_plan(prepare(job, date(2026, 11, 26)))


def _job(make_job: MakeJob, more: str) -> Job:
    """Return the job with more in its [plan]."""
    return make_job(JOB + more, block=cuboid(60, 40, 12), lid=cuboid(50, 50, 2))


def test_every_plate_tells_its_risk_and_the_plan_its_three_clocks(make_job: MakeJob) -> None:
    """plan.json: chance in percent, expected time above the plain one, the curve, schedule as ever, clocks."""
    plan = _planned(_job(make_job, EVENINGS))
    told: Any = plan_json(plan)
    plate = told["plates"][0]

    assert 0 < plate["risk"]["failure_percent"] < 100
    assert plate["risk"]["expected_s"] > plate["duration_s"]
    assert [point["plates"] for point in plate["split"]["curve"]][:2] == [1, 2]
    assert {"plate", "printer", "start", "end"} <= set(told["schedule"][0])
    assert told["clocks"]["printing_s"] == pytest.approx(sum(each["duration_s"] for each in told["plates"]))
    assert told["clocks"]["printed"] <= told["clocks"]["ready"] <= told["clocks"]["ready_p90"]
    json.dumps(told, allow_nan=False)


def test_a_plate_longer_than_every_window_is_parted_and_every_part_holds(make_job: MakeJob) -> None:
    """With 2 h at a time the pieces go on several plates, each proved; ``never`` leaves the plate and says so."""
    short = 'attended = ["Mon-Fri 17:30-19:30"]\n'
    whole = _planned(_job(make_job, 'split = "never"\n' + short))
    plan = _planned(_job(make_job, short))
    rings = {part.part.name: part.outline_mm for part in plan.parts}
    pieces = Counter(p.part for plate in plan.plates for p in plate.placements)

    assert whole.runs[-1].start is None
    assert any(finding.rule == "plan.no-time" for finding in whole.findings)
    assert len(plan.plates) > len(whole.plates)
    assert pieces == {"block": 4, "lid": 2}
    assert all(run.start is not None for run in plan.runs)
    for plate in plan.plates:
        assert verify_plate(plate.placements, rings, bed=plan.job.printer.bed, spacing_mm=4.0) == ()


def test_plates_run_on_the_printers_that_take_them(make_job: MakeJob) -> None:
    """Two of a kind are told apart; what cannot be in [plan] is refused in one sentence that names the key."""
    plan = _planned(_job(make_job, EVENINGS + 'printers = ["bench-220", "bench-220"]\n'))
    clocks = plan.clocks
    assert clocks is not None

    assert set(clocks.table.shop.change_min) == {"bench-220", "bench-220 (2)"}
    with pytest.raises(JobError, match="people"):
        _job(make_job, EVENINGS + "people = 0\n")
    with pytest.raises(JobError, match="quiet"):
        _job(make_job, EVENINGS + 'quiet = ["at night"]\n')


def test_a_plate_is_parted_where_that_pays_and_the_job_wants_it(make_job: MakeJob) -> None:
    """At a failure every other hour two plates beat one: told by default, done with ``when-it-pays``."""
    job = _job(make_job, EVENINGS)
    assert job.calendar is not None
    poor = replace(job, printer=replace(job.printer, failure_per_hour=stated(0.5)))
    told = _planned(poor)
    done = _planned(replace(poor, calendar=replace(job.calendar, split="when-it-pays")))

    assert any(batch.pays and batch.saved_s > 0 for batch in told.batches)
    assert len(done.plates) > len(told.plates)
    assert sum(batch.whole.expected_s for batch in done.batches) < sum(b.whole.expected_s for b in told.batches)


def test_a_missed_deadline_is_a_hold_with_ways_out(make_job: MakeJob) -> None:
    """Somebody counts on the date: the plan is held, the finding says by how many days, the clocks how to be sooner."""
    job = _job(make_job, EVENINGS)
    assert job.calendar is not None
    plan = _planned(replace(job, calendar=replace(job.calendar, deadline=date(2026, 11, 30))))
    assert plan.clocks is not None

    assert [f.verdict.value for f in plan.findings if f.rule == "plan.late"] == ["hold"]
    assert plan.verdict is Verdict.HOLD
    assert all(way.ready < plan.clocks.ready for way in plan.clocks.ways[:-1] if way.ready and plan.clocks.ready)
    assert plan.clocks.ways[-1].ready == plan.clocks.ready
    assert all(way.costs for way in plan.clocks.ways)


def test_a_date_that_cannot_be_kept_is_told_in_the_terminal(make_job: MakeJob) -> None:
    """Late, and a deadline before the start: said beside the dates."""
    plan = _planned(_job(make_job, EVENINGS.replace("22:30", "20:00")))
    assert plan.job.calendar is not None
    for deadline, words in ((date(2026, 12, 1), "after the deadline"), (date(2026, 11, 1), "cannot be kept")):
        calendar = replace(plan.job.calendar, deadline=deadline)
        job = replace(plan.job, calendar=calendar)
        console = Console(width=80, record=True, file=io.StringIO())
        show_clocks(console, replace(changed(plan, job=job), findings=timing_findings(job, plan.clocks)))
        text = " ".join(console.export_text().split())
        assert words in text
        assert "Notes on the calendar" in text


def test_what_is_left_after_a_failure_is_planned_anew(make_job: MakeJob) -> None:
    """A shifted plate is printed again whole; a scarred block alone, packed anew, once the printer is free."""
    plan = _planned(_job(make_job, EVENINGS))
    number = plan.runs[0].plate
    stop = after_failure(plan, Failure(plate=number, at_s=1800.0, cause="shifted", lost={}))
    finish = after_failure(plan, Failure(plate=number, at_s=3600.0, cause="scarred", lost={"block": 1}))

    assert stop.mishap.does == "stop"
    assert stop.left.plates == plan.plates
    assert stop.left.runs[0].start > plan.runs[0].start  # type: ignore[operator]
    assert finish.mishap.does == "finish"
    left = next(plate for plate in finish.left.plates if plate.number == number)
    assert [(p.part, p.x_mm, p.y_mm) for p in left.placements] == [("block", 110.0, 110.0)]  # the bed's middle
    assert finish.logged.lost == (("block", 1),)
    json.dumps(plan_json(finish.left), allow_nan=False)


def test_what_is_left_begins_by_the_clock_on_the_wall(make_job: MakeJob) -> None:
    """Begun at 01:30 in the night that gets an hour more (25 October 2026, Berlin): 2 h later the clock shows 02:30."""
    job = _job(make_job, "")
    assert job.calendar is not None
    begin, found = datetime(2026, 10, 25, 1, 30), []
    for zone in ("", "Europe/Berlin"):
        plan = _planned(replace(job, calendar=replace(job.calendar, start=begin, zone=zone)))
        number = plan.runs[0].plate
        left = after_failure(plan, Failure(plate=number, at_s=7200.0, cause="shifted", lost={})).left
        assert left.clocks is not None
        found.append(left.clocks.table.start)
    change_s = round(job.printer.plate_change_s.value)

    assert found == [begin + timedelta(hours=2, seconds=change_s), begin + timedelta(hours=1, seconds=change_s)]


def test_what_is_not_in_the_plan_is_refused(make_job: MakeJob) -> None:
    """No such plate, cause or piece, a time beyond the plate's, more pieces than lie there: one sentence each."""
    plan = _planned(_job(make_job, EVENINGS))
    good = {"plate": 1, "at_s": 60.0, "cause": "loose", "lost": {"block": 1}}
    for key, value in (("plate", 9), ("cause", "los"), ("at_s", 1e6), ("lost", {"blok": 1}), ("lost", {"block": 9})):
        with pytest.raises(CommandError, match="--"):
            after_failure(plan, Failure(**{**good, key: value}))  # type: ignore[arg-type]


def test_a_piece_or_a_time_told_of_the_wrong_plate_names_the_right_one(make_job: MakeJob) -> None:
    """At the bench the number is what slips: the sentence says where the piece lies and which plates take so long."""
    plan = _planned(_job(make_job, EVENINGS + 'apart = [["block", "lid"]]\n'))
    blocks, lids = (
        next(p for p in plan.plates if any(q.part == part for q in p.placements)) for part in ("block", "lid")
    )
    assert blocks.number != lids.number
    slip = Failure(plate=lids.number, at_s=60.0, cause="loose", lost={"block": 1})
    with pytest.raises(CommandError, match=rf"no 'block' .*lies on plate {blocks.number} .*--failed {blocks.number}"):
        after_failure(plan, slip)
    late = replace(slip, at_s=blocks.duration_s.value, lost={"lid": 1})
    assert late.at_s > lids.duration_s.high
    with pytest.raises(CommandError, match=rf"plate {lids.number} takes .*plate {blocks.number} takes that long"):
        after_failure(plan, late)


LEDGERLESS = ("--failed", "1", "--at", "1h", "--cause", "loose", "--even-so")
"""There is no ledger that could be told."""


def test_the_command_says_finish_or_stop_and_logs(tmp_path: Path) -> None:
    """As typed: the judgement first, the plan of what is left, a log that calibrate reads; slips exit with 2."""
    written(cuboid(60, 40, 12), tmp_path / "block.stl")
    written(cuboid(50, 50, 2), tmp_path / "lid.stl")
    (tmp_path / "job.toml").write_text(JOB + EVENINGS, encoding="utf-8")

    def replanned(*words: str) -> Done:
        return run("plan", *words, "job.toml", "-o", "left", cwd=tmp_path)

    done = replanned("--failed", "1", "--at", "0h30", "--cause", "loose", "--lost", "block:1")
    read = read_log(tmp_path / "print-log.csv")

    assert done.returncode in (0, 1), done.stderr
    assert done.stdout.startswith("STOP plate 1")
    assert "to print again: block x 4 and lid x 2" in done.stdout
    assert (read[0].failed, read[0].failed_at_h, read[0].cause) == (True, 0.5, "loose")
    for words in (
        ("--failed", "1"),
        ("--failed", "1", "--at", "3"),
        ("--at", "3h"),
        ("--lost", "block:1"),
        ("--even-so",),
        ("--spool", "S-1"),
        LEDGERLESS,
    ):
        slip = replanned(*words)
        assert slip.returncode == 2
        assert slip.stderr.count("\n") == 1

"""The release: nothing goes out while a test, a lot, a role or a fresh measure is missing, unless a role answers for it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from planner.errors import RecordError
from planner.finding import Finding, Verdict
from planner.job import Override
from planner.output import SIZES, Record, bench_papers, blank, head_of, html, release, release_json, write_release
from planner.output.record.record import Lift
from planner.plan import Plan
from tests.output.conftest import MakePlan
from tests.output.pages import pages_of
from tests.plan.jobs import changed

DAY = date(2026, 12, 20)


@pytest.fixture(name="strict", scope="session")
def _strict(plan: Plan) -> Plan:
    """Return the plan without the job's own override."""
    return changed(plan, job=replace(plan.job, overrides=()))


@pytest.fixture(name="full", scope="session")
def _full(strict: Plan) -> Record:
    """Return a record with everything filled in, five days before the hand-over."""
    record = blank(strict, "a4")
    return replace(
        record,
        trials=tuple(replace(one, result="pass", reading="231.5 g") for one in record.trials),
        tested_on=date(2026, 12, 15),
        lots=tuple(replace(one, lot="B-17") for one in record.lots),
        measures=tuple(replace(one, taken=date(2026, 12, 15)) for one in record.measures),
        roles=tuple((role, "maker") for role, _ in record.roles),
    )


def _items(plan: Plan, record: Record, day: date = DAY) -> list[str]:
    """Return what is missing."""
    return [one.item for one in release(plan, record, day).missing]


def test_a_full_record_is_released(strict: Plan, full: Record) -> None:
    """Nothing is missing, nobody answers for anything."""
    judged = release(strict, full, DAY)

    assert judged.released
    assert judged.answered == ()


def test_an_empty_form_misses_everything(strict: Plan) -> None:
    """Every trial, lot and role, and the day; the measures are those of the job, and 79 days old: fresh enough."""
    record = blank(strict, "a4")
    items = _items(strict, record)

    assert len(items) == len(record.trials) + len(record.lots) + len(record.roles) + 1
    assert {item.split(":")[0] for item in items} == {"trial", "lot", "role", "test day"}


def _without(full: Record, kind: str, index: int) -> Record:
    """Return a record with one answer of one kind taken away."""
    if kind == "trials":
        return replace(
            full, trials=tuple(replace(t, result="") if i == index else t for i, t in enumerate(full.trials))
        )
    if kind == "lots":
        return replace(full, lots=tuple(replace(t, lot="") if i == index else t for i, t in enumerate(full.lots)))
    return replace(full, roles=tuple((r[0], "") if i == index else r for i, r in enumerate(full.roles)))


@pytest.mark.parametrize("kind", ["trials", "lots", "roles"])
def test_each_single_gap_stands_against_it(strict: Plan, full: Record, kind: str) -> None:
    """Take any one answer away: just that is missing, and with a role and a reason it is released again."""
    for index in range(len(getattr(full, kind))):
        record = _without(full, kind, index)
        items = _items(strict, record)
        assert len(items) == 1
        lifted = replace(record, lifts=(Lift(item=items[0], role="chapter lead", reason="seen"),))
        assert release(strict, lifted, DAY).released
        assert release(strict, lifted, DAY).answered[0].lift.role == "chapter lead"


def test_a_failed_trial_is_missing_with_its_remark(strict: Plan, full: Record) -> None:
    """A fail is no pass."""
    trials = tuple(replace(t, result="fail", remark="rubs") if t.trial == "jaw in deck" else t for t in full.trials)
    judged = release(strict, replace(full, trials=trials), DAY)

    assert [one.item for one in judged.missing] == ["trial: jaw in deck"]
    assert "rubs" in judged.missing[0].what


def test_a_mass_over_its_limit_does_not_pass_by_the_word_alone(strict: Plan, full: Record) -> None:
    """251 g recorded as passed under a limit of 250 g is missing; 250 g is not."""

    def with_mass(reading: str) -> Record:
        """Return the record with another reading of the scales."""
        return replace(full, trials=tuple(replace(t, reading=reading) if t.trial == "mass" else t for t in full.trials))

    assert _items(strict, with_mass("251 g")) == ["trial: mass"]
    assert _items(strict, with_mass("250,0")) == []
    assert _items(strict, with_mass("0.26 kg")) == ["trial: mass"]


@pytest.mark.parametrize("reading", ["", "about 260 g", "8 oz", "-3", "fine"])
def test_a_mass_that_nobody_can_compare_does_not_pass(strict: Plan, full: Record, reading: str) -> None:
    """Under a limit, a word, another unit or nothing at all is no reading; no unit is guessed."""
    trials = tuple(replace(t, reading=reading) if t.trial == "mass" else t for t in full.trials)

    assert _items(strict, replace(full, trials=trials)) == ["trial: mass"]


def test_measures_go_stale_by_the_rule_of_the_job(strict: Plan, full: Record) -> None:
    """A child's measure is fresh for 92 days (size.stale): on day 92 it passes, on day 93 it does not."""
    taken = date(2026, 12, 15)

    assert _items(strict, full, date.fromordinal(taken.toordinal() + 92)) == []
    assert _items(strict, full, date.fromordinal(taken.toordinal() + 93)) == ["measure: forearm width at the cuff"]


def test_a_measure_that_asks_for_another_size_stands_against_it(strict: Plan, full: Record) -> None:
    """64 mm instead of 58 asks for 116 %, over 5 % from 106.5 %."""
    grown = replace(full, measures=tuple(replace(one, recipient_mm=64.0) for one in full.measures))

    assert _items(strict, grown) == ["measures"]


def test_an_override_of_the_job_counts_and_is_named(plan: Plan, full: Record) -> None:
    """The Heron's job lifts size.stale by a role and a reason: released by override, not in silence."""
    judged = release(plan, full, date(2027, 6, 1))

    assert isinstance(plan.job.overrides[0], Override)
    assert judged.released
    assert [(a.missing.item, a.lift.role) for a in judged.answered] == [
        ("measure: forearm width at the cuff", "chapter lead")
    ]


def test_days_to_come_prove_nothing(strict: Plan, full: Record) -> None:
    """A test or a measure dated after the hand-over is missing."""
    late = date(2027, 1, 1)
    record = replace(full, tested_on=late, measures=tuple(replace(one, taken=late) for one in full.measures))

    assert _items(strict, record) == ["test day", "measure: forearm width at the cuff"]


def test_a_test_before_everything_else_is_a_slip(strict: Plan, full: Record) -> None:
    """The Heron's measure was taken on 2 October 2026: a test of December 2025 is a wrong year, one of that day is not."""
    assert _items(strict, replace(full, tested_on=date(2025, 12, 15))) == ["test day"]
    assert _items(strict, replace(full, tested_on=date(2026, 10, 2))) == []


def test_one_part_at_another_size_is_another_device(strict: Plan, full: Record) -> None:
    """The lock pin planned at 100 % and, since then, at 103 %; the settings with two contours instead of three."""
    parts = tuple(replace(p, scale_percent=(103.0,) * 3) if p.part.name == "lock-pin" else p for p in strict.parts)
    thinner = replace(strict.job, settings=replace(strict.job.settings, contours_n=2))

    assert _items(changed(strict, parts=parts), full) == ["same device"]
    assert _items(changed(strict, job=thinner), full) == ["same device"]


def test_what_is_not_of_this_plan_is_said(strict: Plan, full: Record) -> None:
    """A trial, a lot and a measure of some other plan are passed over, and named."""
    more = replace(
        full,
        trials=(*full.trials, replace(full.trials[0], trial="flight")),
        lots=(*full.lots, replace(full.lots[0], of="gold")),
        measures=(*full.measures, replace(full.measures[0], name="foot")),
    )

    assert release(strict, more, DAY).strange == ("trial: flight", "lot: gold", "measure: foot")


@pytest.mark.parametrize(
    "change", [{"scale_percent": 110.0}, {"side": "right"}, {"parts_sha256": "0"}, {"recipient": "R-08"}]
)
def test_a_record_of_another_device_releases_nothing(strict: Plan, full: Record, change: dict[str, object]) -> None:
    """Another size, side, mesh or recipient: the record is of another device."""
    assert _items(strict, replace(full, of=replace(full.of, **change))) == ["same device"]  # type: ignore[arg-type]


def test_a_plan_on_hold_releases_nothing(strict: Plan, full: Record) -> None:
    """Whatever the record says, a plan that does not pass stands against it."""
    assert _items(replace(strict, verdict=Verdict.HOLD), full) == ["plan"]


def test_a_job_without_measures_cannot_be_fresh(make_plan_of: MakePlan) -> None:
    """No measure at all is missing, too."""
    plan = make_plan_of()

    assert "measures" in _items(plan, blank(plan, "a4"))


def test_an_override_of_nothing_known_is_refused(strict: Plan, full: Record) -> None:
    """A misspelt item names the nearest; one that nothing needs is said."""
    with pytest.raises(RecordError, match="did you mean 'trial: load'"):
        release(strict, replace(full, lifts=(Lift(item="trial: lod", role="x", reason="y"),)), DAY)
    judged = release(strict, replace(full, lifts=(Lift(item="trial: load", role="x", reason="y"),)), DAY)

    assert [lift.item for lift in judged.needless] == ["trial: load"]


def test_the_sheet_is_stamped(strict: Plan, full: Record, tmp_path: Path) -> None:
    """NOT RELEASED before, and with a gap; RELEASED after; with an override its role and reason stand on it."""

    def sheet(record: Record | None) -> str:
        """Return the hand-over sheet's HTML."""
        judged = None if record is None else release(strict, record, DAY)
        papers = bench_papers(strict, SIZES["a4"], judged)
        return html(papers, head_of(strict), SIZES["a4"])["hand-over.html"]

    gap = replace(full, tested_on=None)
    lifted = replace(gap, lifts=(Lift(item="test day", role="chapter lead", reason="seen by two"),))
    path = write_release(strict, tmp_path, release(strict, full, DAY), "letter")

    assert "<strong>NOT RELEASED</strong>" in sheet(None)
    assert "<strong>NOT RELEASED</strong>" in sheet(gap)
    assert "the test has no day" in sheet(gap)
    assert "<strong>RELEASED</strong>" in sheet(full)
    assert "<strong>RELEASED BY OVERRIDE</strong>" in sheet(lifted)
    assert "Approved by the chapter lead: seen by two" in sheet(lifted)
    assert "<strong>RELEASED</strong>" in path.read_text(encoding="utf-8")
    assert "NOT RELEASED" not in pages_of((tmp_path / "papers.pdf").read_bytes())[-1].text


def test_the_json_says_all(strict: Plan, full: Record) -> None:
    """Versioned, with what is missing and who answers."""
    record = replace(full, tested_on=None, lots=(), lifts=(Lift(item="test day", role="lead", reason="seen"),))
    found = release_json(strict, release(strict, record, DAY), Path("record.toml"), Path("hand-over.html"))

    assert found["schema"] == "fitwright/release/1"
    assert found["released"] is False
    assert found["verdict"] == "hold"
    assert len(found["missing"]) == len(full.lots)  # type: ignore[arg-type]
    assert found["overridden"] == [
        {"item": "test day", "what": "the test has no day", "role": "lead", "reason": "seen"}
    ]


def test_a_missed_date_does_not_hold_up_a_device_that_is_done(strict: Plan, full: Record) -> None:
    """Late is a hold of the plan and no fault of the device; any other hold still stands against a release."""
    late = Finding(
        rule="plan.late", part="", feature="deadline", verdict=Verdict.HOLD, why="3 d after the deadline", source=""
    )
    other = replace(late, rule="spool.end")

    def released(*findings: Finding) -> bool:
        return release(replace(strict, findings=findings, verdict=Verdict.HOLD), full, DAY).released

    assert released(late)
    assert not released(late, other)

"""What a finding says it rests on is true: nothing weaker changes its verdict within its range."""

from __future__ import annotations

import random
from dataclasses import fields, is_dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from planner.finding import Evidence, Verdict
from planner.job import Job
from planner.plan import Prepared, prepare
from planner.rules import check
from planner.rules.questions.given_answers import answered
from planner.rules.questions.unanswered_rules_of import by_key, slots_of
from planner.rules.questions.usual_values import moved
from planner.sourced import Sourced
from tests.bench.every_case import cases
from tests.conftest import MakeJob
from tests.rules.questions.guessed_device import guessed
from tests.shapes import bored_plate

TODAY = date(2026, 12, 1)
TRIES = cases(12, 60)
PLATE = """[job]
name = "x"
material = "petg"
[[part]]
name = "a"
mesh = "a.stl"
duty = "load"
pose = [0, 0, -1]
[[hardware]]
name = "pin"
kind = "dowel-pin"
diameter_mm = 3.0
bore_mm = {bore}
fit = "turning"
joins = ["a"]
"""


def _within(record: Any, rng: random.Random) -> Any:
    """Return a record with every value somewhere in its range."""
    if isinstance(record, Sourced):
        return replace(record, value=rng.uniform(record.low, record.high))
    if isinstance(record, tuple):
        return tuple(_within(each, rng) for each in record)
    if is_dataclass(record) and not isinstance(record, type):
        return replace(record, **{f.name: _within(getattr(record, f.name), rng) for f in fields(record)})
    return record


def _judged(ready: Prepared, job: Job) -> dict[Any, list[Verdict]]:
    """Return the verdicts of a changed job's rules, by what they stand for in the job itself."""
    asked_nothing = replace(ready, asked=())
    now = by_key(asked_nothing.rules_for(ready.job, ready.downs))
    slots = slots_of(now, asked_nothing.rules_for(job, ready.downs))
    factor = ready.sizing.percent / 100
    return {key: [rule.at(factor).verdict for rule in rules] for key, rules in slots.items()}


def _worst(verdicts: list[Verdict]) -> Verdict:
    return max(verdicts, key=lambda verdict: verdict.severity, default=Verdict.GO)


@pytest.fixture(name="device", params=["heron", "guessed"])
def _device(request: pytest.FixtureRequest, heron_ready: Prepared, tmp_path: Path) -> Prepared:
    return heron_ready if request.param == "heron" else prepare(guessed(tmp_path / "device"), TODAY)


def test_nothing_weaker_changes_a_verdict(device: Prepared) -> None:
    """12 times, 60 with every case: each doubt answered, each usual value anywhere in its range; what is measured or stated stays."""
    found: dict[Any, list[Any]] = {}
    checked = check(device.bound, device.sizing.percent)
    by_rule = {(rule.part, rule.feature, rule.rule): rule for rule in device.bound.rules}
    factor = device.sizing.percent / 100
    for key, rule in by_rule.items():
        told = rule.at(factor)
        found[key] = [f for f in checked.findings if (f.part, f.rule, f.feature) == (key[0], key[2], told.feature)]
    rng = random.Random(1)  # noqa: S311  any numbers do, the same on every machine
    weighed = 0
    for _ in TRIES:
        given = tuple((k, rng.randrange(len(one.answers))) for k, one in enumerate(device.asked))
        job = answered(device.job, device.surveys, device.asked, given)
        moved_job = replace(job, printer=_within(job.printer, rng), limits=_within(job.limits, rng))
        at_middle, anywhere = _judged(device, job), _judged(device, moved_job)
        for key, findings in found.items():
            for finding in findings[:1] if len(findings) == 1 else []:
                if finding.evidence in (Evidence.MEASURED, Evidence.STATED):
                    assert _worst(anywhere.get(key, [])) is finding.verdict, finding
                    weighed += 1
                elif finding.evidence is Evidence.USUAL:
                    assert _worst(at_middle.get(key, [])) is finding.verdict, finding
                    weighed += 1
    assert weighed > len(TRIES) * 30


@pytest.mark.parametrize(
    ("bore", "evidence"), [(3.0, Evidence.MEASURED), (3.5, Evidence.USUAL), (3.8, Evidence.MEASURED)]
)
def test_a_fit_within_the_printers_range_rests_on_a_usual_value(
    make_job: MakeJob, bore: float, evidence: Evidence
) -> None:
    """A turning 3 mm pin needs 3.1 to 3.3 mm: 3.0 prints at 2.7 to 2.9, 3.8 at 3.5 to 3.7, 3.5 at 3.2 to 3.4."""
    job = make_job(PLATE.format(bore=bore), a=bored_plate(40, 30, 6, [(20, 15, bore, 360)]))
    ready = prepare(job, TODAY)
    (found,) = [f for f in check(ready.bound, 100.0).findings if f.rule == "bore.tight"]

    assert found.evidence is evidence
    assert bool(found.caution) is (evidence is Evidence.USUAL)


def test_a_value_without_a_range_is_not_moved() -> None:
    """Both ends of a range are met; what has none stays the very same record."""
    ranged = Sourced(value=0.2, low=0.1, high=0.3, kind="memory", source="from memory")
    fixed = replace(ranged, low=0.2, high=0.2)

    assert [moved((ranged, fixed), end)[0].value for end in ("low", "high")] == [0.1, 0.3]
    assert moved((fixed,), "low")[0] is fixed

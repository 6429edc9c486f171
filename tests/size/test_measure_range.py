"""A measure that may be off: no go where the other end of its range gives another verdict."""

from __future__ import annotations

from datetime import date

import pytest

from planner.finding import Evidence, Finding, Verdict
from planner.plan import Prepared, prepare
from planner.rules import check
from planner.size.measure_range import at_range_ends, off_mm
from tests.conftest import MakeJob
from tests.shapes import cuboid

HEAD = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n[size]\n'


def _ready(make_job: MakeJob, *measures: tuple[str, float, str], more: str = "", size: str = "") -> Prepared:
    """Return a bar of 100 mm, whose measures are 100 mm inside it as drawn."""
    each = '[[size.measure]]\nname = "{}"\nkind = "width"\nrecipient_mm = {}\ndevice_mm = 100.0\n{}\n'
    text = HEAD + size + "".join(each.format(*one) for one in measures) + more
    return prepare(make_job(text, a=cuboid(100, 10, 8)), date(2026, 12, 1))


def _said(ready: Prepared) -> list[Finding]:
    """Return what is said of ranges."""
    return [f for f in check(ready.bound, ready.sizing.percent).findings if f.rule == "size.range"]


def test_a_range_on_one_side_of_every_turn_passes(make_job: MakeJob) -> None:
    """A bar of some 100 mm lies on a bed of 220 mm wherever in 97 to 103 mm the limb is."""
    ready = _ready(make_job, ("limb", 100.0, "off_mm = 3.0"))

    assert [f.verdict for f in _said(ready)] == [Verdict.GO]
    assert check(ready.bound, 100.0).verdict is Verdict.GO


def test_what_would_not_lie_on_the_bed_at_the_high_end_is_held(make_job: MakeJob) -> None:
    """Turned by 45°, 100 x 10 mm are 110 / √2 mm wide: 270 % of it lie on the 210 mm of a bed that are usable."""
    exact, ranged = (_ready(make_job, ("limb", 260.0, off)) for off in ('how = "caliper"', "off_mm = 40.0"))

    assert check(exact.bound, exact.sizing.percent).verdict is Verdict.GO
    assert _said(exact) == []
    (finding,) = _said(ranged)
    assert check(ranged.bound, ranged.sizing.percent).verdict is Verdict.HOLD
    assert "limb is known to ± 40.0 mm" in finding.why
    assert "go at 260.0 %" in finding.why
    assert finding.question


def test_a_photo_without_its_range_is_no_exact_measure(make_job: MakeJob) -> None:
    """3 % of 265 mm are 8 mm each way: 273 % lie on no bed that 270 % just lie on."""
    ready = _ready(make_job, ("limb", 265.0, 'how = "photo"'))

    assert off_mm(ready.job.size.measures[0]) == pytest.approx(7.95)
    assert [(f.verdict, f.evidence) for f in _said(ready)] == [(Verdict.HOLD, Evidence.GUESSED)]


def test_a_size_that_is_stated_stays_and_its_measures_may_not_agree(make_job: MakeJob) -> None:
    """100 % against 98 mm: up to 5 % apart agree; 98 - 4 mm are 6.4 % off, 98 - 2 mm are 4.2 %."""
    near, far = (_ready(make_job, ("limb", 98.0, f"off_mm = {off}"), size="percent = 100.0\n") for off in (2.0, 4.0))

    assert [f.verdict for f in _said(near)] == [Verdict.GO]
    assert [f.verdict for f in _said(far)] == [Verdict.HOLD]


def test_two_ranges_are_tried_against_each_other(make_job: MakeJob) -> None:
    """97 and 100 mm agree; 97 - 1.5 and 100 + 1.5 mm are 6.3 % apart, more than the 5 % that count as agreement."""
    measures = _ready(make_job, ("wrist", 97.0, "off_mm = 1.5"), ("palm", 100.0, "off_mm = 1.5"), ("long", 99.0, ""))

    assert [f.verdict for f in _said(measures)] == [Verdict.HOLD]
    tried = [tuple(one.recipient_mm for one in each) for each in at_range_ends(measures.job.size.measures)]
    assert sorted(tried) == [(95.5, 98.5, 99.0), (95.5, 101.5, 99.0), (98.5, 98.5, 99.0), (98.5, 101.5, 99.0)]


def test_a_person_may_lift_it(make_job: MakeJob) -> None:
    """A role and a reason lift the hold, as any other; nothing passes in silence."""
    lift = '[[override]]\nrule = "size.range"\nrole = "lead"\nreason = "tried on"\n'
    ready = _ready(make_job, ("limb", 260.0, "off_mm = 40.0"), more=lift)

    (finding,) = _said(ready)
    assert finding.verdict is Verdict.GO
    assert "Hold lifted by lead: tried on" in finding.caution


def test_a_rebound_job_keeps_the_hold(make_job: MakeJob) -> None:
    """What asks the rules again, for another printer or a changed job, says the same of the range."""
    ready = _ready(make_job, ("limb", 260.0, "off_mm = 40.0"))

    again = ready.rules_for(ready.job, ready.downs)
    assert [r.at(2.6).verdict for r in again if r.rule == "size.range"] == [Verdict.HOLD]

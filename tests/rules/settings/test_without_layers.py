"""The settings rules without layers: what ``check`` says of settings, a plan that knows the layers says as well."""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from planner.finding import Evidence, Verdict
from planner.job import Job, rule_kinds
from planner.plan import Prepared, judged_settings, prepare
from planner.rules import check
from planner.size import window
from planner.sourced import stated
from tests.conftest import MakeJob
from tests.shapes import cuboid, cylinder, solid_of

TODAY = date(2026, 12, 1)
HEAD = '[job]\nname = "x"\nmaterial = "{}"\nmesh_unit = "mm"\n'
PARTS = "".join(
    f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "{duty}"\npose = [0, 0, -1]\n'
    for name, duty in (("block", "load"), ("skin", "shell"), ("pin", "pin"))
)
RANGES: dict[str, tuple[float, float]] = {
    "layer_height_mm": (0.04, 0.42),
    "first_layer_height_mm": (0.1, 0.42),
    "line_width_mm": (0.3, 0.9),
    "solid_top_mm": (0.2, 1.0),
    "infill_percent": (3.0, 90.0),
    "outer_contour_speed_mm_s": (20.0, 180.0),
    "infill_speed_mm_s": (20.0, 180.0),
    "first_layer_speed_mm_s": (10.0, 70.0),
    "fan_percent": (0.0, 100.0),
    "least_layer_s": (0.0, 20.0),
    "nozzle_c": (170.0, 280.0),
    "bed_c": (30.0, 110.0),
}


def _prepared(make_job: MakeJob, material: str, more: str = "") -> Prepared:
    """Return a block, a skin and a pin, prepared."""
    solids = {"block": cuboid(40, 30, 10), "skin": cuboid(40, 0.9, 20), "pin": solid_of(cylinder(4, 20, 48))}
    return prepare(make_job(HEAD.format(material) + PARTS + more, **solids), TODAY)


def _changed(ready: Prepared, job: Job) -> Prepared:
    """Return the same parts with other settings."""
    assert ready.bound.settings is not None
    return replace(ready, job=job, bound=replace(ready.bound, settings=replace(ready.bound.settings, job=job)))


@pytest.mark.parametrize("material", ["petg", "pla"])
def test_check_and_plan_agree_on_every_rule_that_both_ask(make_job: MakeJob, material: str) -> None:
    """Ten random settings a material: each rule that is asked without layers has the same verdict with them."""
    rng, ready = random.Random(material), _prepared(make_job, material)  # noqa: S311  the same settings everywhere
    both = 0
    for _ in range(10):
        values: dict[str, Any] = {key: stated(rng.uniform(*ends)) for key, ends in rng.sample(list(RANGES.items()), 5)}
        values["contours_n"] = rng.randint(1, 7)
        other = _changed(ready, replace(ready.job, settings=replace(ready.job.settings, **values)))
        here = {(f.rule, f.part, f.feature): f for f in check(other.bound, 100.0).findings}
        there = {(f.rule, f.part, f.feature): f for f in judged_settings(other).findings}
        for key in here.keys() & there.keys():
            assert here[key].verdict is there[key].verdict, (values, here[key].why, there[key].why)
            both += 1
        asked = {rule for rule, _, _ in here} | set(check(other.bound, 100.0).not_checked)
        assert {rule for rule, _, _ in there} <= asked, "a plan asks something that check neither asks nor names"
    assert both > 300


def test_every_settings_rule_is_asked_or_says_that_it_needs_layers(make_job: MakeJob) -> None:
    """A rule that is neither asked here nor named as not asked would pass in silence."""
    checked = check(_prepared(make_job, "petg", "[settings]\nbrim_mm = 5.0\n").bound, 100.0)
    asked = {finding.rule for finding in checked.findings}

    for name, kind in rule_kinds().items():
        if kind.family == "settings" and "layers" in kind.asks:
            assert (name in asked) or (name in checked.not_checked), name
    assert {"speed.first", "layer.height", "fan.range", "material.enclosure", "contours.load", "infill.share"} <= asked
    assert not asked & set(checked.not_checked)


def test_one_contour_on_a_solid_block_is_work_and_on_a_skin_it_is_not_known(make_job: MakeJob) -> None:
    """A block of 40 x 30 x 10 mm is hollow whatever its layers; a skin of 0.9 mm may be full, so nothing is said."""
    one = "[settings]\ncontours_n = 1\n"
    text = HEAD.format("petg") + '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "{}"\n' + one
    block = check(prepare(make_job(text.format("load"), a=cuboid(40, 30, 10)), TODAY).bound, 100.0)
    skin = check(prepare(make_job(text.format("shell"), a=cuboid(40, 0.9, 20)), TODAY).bound, 100.0)

    assert {f.rule for f in block.findings if f.verdict is Verdict.GO_WITH_WORK} == {"contours.load"}
    assert "contours.shell" in skin.not_checked
    assert not [f for f in skin.findings if f.rule.startswith("contours.") and f.verdict is not Verdict.GO]


def test_settings_that_cannot_be_laid_leave_no_size_that_works(make_job: MakeJob) -> None:
    """Layers of 0.5 mm from a 0.4 mm nozzle: no-go in check, and window promises no size."""
    ready = _prepared(make_job, "petg", "[settings]\nlayer_height_mm = 0.5\n")
    checked = check(ready.bound, 100.0)

    assert checked.verdict is Verdict.NO_GO
    assert any("layer height" in told for told in checked.headline.ends)
    assert window(ready.bound.every, 100.0).workable.intervals == ()


def test_a_small_bore_ends_the_sizes_that_go_as_they_are(make_job: MakeJob) -> None:
    """Three lines of 0.45 mm are 1.35 mm: a bore of 2.7 mm goes from 50 % on, by hand."""
    drilled = solid_of(cylinder(20, 10, 96) - cylinder(2.7, 30, 96).translate((0, 0, -10)))
    text = HEAD.format("petg") + '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
    ready = prepare(make_job(text, a=drilled), TODAY)
    lines = [rule for rule in ready.bound.every if rule.rule == "bore.lines"]

    assert window(lines, 100.0).go.intervals[0].low_percent == pytest.approx(50.0, rel=1e-3)


def test_what_settings_rest_on_is_told(make_job: MakeJob) -> None:
    """A line as wide as it is set is stated; a least layer time inside the 5 to 15 s from memory is usual."""
    ready = _prepared(make_job, "petg", "[settings]\nline_width_mm = 0.7\nleast_layer_s = 8.0\n")
    rests = {finding.rule: finding.evidence for finding in check(ready.bound, 100.0).findings}
    layered = {finding.rule: finding.evidence for finding in judged_settings(ready).findings}

    assert (rests["line.width"], rests["wall.lines"]) == (Evidence.STATED, Evidence.MEASURED)
    assert rests.get("layer.cool") is layered["layer.cool"] is Evidence.USUAL

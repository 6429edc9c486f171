"""The smallest change: several wrong settings become right ones, each moved to its limit and no farther."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planner.finding import Finding, Verdict, worst
from planner.job import Job, Material, Printer, Settings, kind_of, read_material, read_printer, read_settings
from planner.layers import PartEstimate, estimate_part
from planner.mesh import posed
from planner.plan import judged_settings, prepare
from planner.rules import Change, setting_remedy, settings_findings, smallest_change
from planner.scale import DRAWN
from planner.sourced import stated
from tests.conftest import MakeJob
from tests.shapes import Manifold, cuboid, cylinder, solid_of

Judge = Callable[[Settings], Sequence[Finding]]
BLOCK = cuboid(40, 30, 10)
PETG = read_material("petg", Path())
TEXT = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'


@pytest.fixture(name="job")
def _job(make_job: MakeJob) -> Job:
    return make_job(TEXT, a=cuboid(40, 30, 10))


def _judge(job: Job, own: Settings) -> tuple[Finding, ...]:
    """Run the rules without geometry."""
    return settings_findings(replace(job, settings=own), PETG, surveys={}, estimates={}, downs={}, scale=DRAWN)


def test_several_wrong_settings_give_one_change_each(job: Job) -> None:
    """Layer 0.36 of a 0.4 nozzle, nozzle 275 °C, one contour: to 0.32, 260 and 3, the limits themselves."""
    wrong = replace(job.settings, layer_height_mm=stated(0.36), nozzle_c=stated(275.0), contours_n=1)
    changes, after = smallest_change(wrong, lambda own: _judge(job, own))
    told = {change.key: change.after for change in changes}

    assert told["layer_height_mm"] == pytest.approx(0.32)
    assert told["nozzle_c"] == pytest.approx(260.0)
    assert told["contours_n"] == 3
    assert after is Verdict.GO


def test_right_settings_want_no_change(job: Job) -> None:
    """Nothing is moved."""
    assert smallest_change(job.settings, lambda own: _judge(job, own)) == ((), Verdict.GO)


NUMBERS = {
    "layer_height_mm": (0.01, 0.6),
    "first_layer_height_mm": (0.02, 0.6),
    "line_width_mm": (0.15, 1.5),
    "solid_top_mm": (0.0, 2.0),
    "solid_bottom_mm": (0.0, 2.0),
    "infill_percent": (0.0, 100.0),
    "outer_contour_speed_mm_s": (10.0, 400.0),
    "inner_contour_speed_mm_s": (10.0, 400.0),
    "solid_fill_speed_mm_s": (10.0, 400.0),
    "infill_speed_mm_s": (10.0, 400.0),
    "first_layer_speed_mm_s": (5.0, 120.0),
    "fan_percent": (0.0, 100.0),
    "least_layer_s": (0.0, 60.0),
    "nozzle_c": (150.0, 320.0),
    "bed_c": (0.0, 130.0),
    "spacing_mm": (0.0, 10.0),
    "self_supporting_deg": (0.0, 90.0),
}
"""Settings drawn at random, and between what."""


@st.composite
def _wrong(draw: st.DrawFn) -> dict[str, Any]:
    """Draw a few settings that may be wrong; the others stay right."""
    keys = draw(st.lists(st.sampled_from(sorted(NUMBERS)), min_size=1, max_size=6, unique=True))
    drawn: dict[str, Any] = {key: stated(draw(st.floats(*NUMBERS[key]))) for key in keys}
    return {**drawn, "contours_n": draw(st.integers(0, 8))}


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    wrong=_wrong(),
    material=st.sampled_from(["petg", "pla", "tpu", "abs", "pa12", "pc"]),
    printer=st.sampled_from(["bench-220", "small-180", "cabinet-250"]),
    nozzle_mm=st.sampled_from([0.25, 0.4, 0.6, 0.8]),
    part=st.sampled_from(["", "block", "pin"]),
)
def test_each_remedy_settles_its_rule_and_worsens_none(
    make_job: MakeJob, wrong: dict[str, Any], material: str, printer: str, nozzle_mm: float, part: str
) -> None:
    """Random settings: whatever a setting can cure gets a remedy, and with it that rule goes and no other is worse."""
    plastic, machine = read_material(material, Path()), read_printer(printer, Path())
    own = replace(make_job(TEXT, a=BLOCK), printer=replace(machine, nozzle_mm=stated(nozzle_mm)))

    def judge(of: Settings) -> tuple[Finding, ...]:
        own_of = replace(own, settings=of)
        return settings_findings(own_of, plastic, surveys={}, estimates=_laid(part), downs={}, scale=DRAWN)

    start = replace(own.settings, **wrong)
    before = _by_rule(judge(start))
    for finding in judge(start):
        if finding.verdict is Verdict.GO or not kind_of(finding.rule).moves:
            continue
        assert _sentence_works(start, judge, finding), (finding.remedy, finding.why)
        changes = setting_remedy(start, judge, finding)
        if not changes:
            assert _out_of_reach(own.printer, plastic), finding
            continue
        after = _by_rule(judge(_with(start, changes)))
        assert after[finding.rule] is Verdict.GO, (finding, changes)
        assert {
            rule for rule, verdict in after.items() if verdict.severity > before.get(rule, Verdict.GO).severity
        } == set()
    changes, verdict = smallest_change(start, judge)
    after = _by_rule(judge(_with(start, changes)))
    assert {rule for rule, each in after.items() if each.severity > before.get(rule, Verdict.GO).severity} == set()
    if not _out_of_reach(own.printer, plastic):
        assert {rule for rule, each in after.items() if each is not Verdict.GO} <= UNCURED
        assert verdict is worst(judge(_with(start, changes)))


@cache
def _laid(part: str) -> dict[str, PartEstimate]:
    """Return a part laid in layers with the settings as shipped, as the plan judges changes; none where none is named."""
    solids = {"block": BLOCK, "pin": solid_of(cylinder(4, 20, 48))}
    if part not in solids:
        return {}
    standard, bench = read_settings("standard-0.4", Path()), read_printer("bench-220", Path())
    posed_part = posed(solids[part], (0.0, 0.0, -1.0))
    return {"a": replace(estimate_part(posed_part, settings=standard, printer=bench, material=PETG), part="a")}


UNCURED = {"material.enclosure", "nozzle.wear"}
"""Rules that no setting cures."""


def _by_rule(found: tuple[Finding, ...]) -> dict[str, Verdict]:
    """Return the worst verdict of every rule."""
    return {finding.rule: worst(each for each in found if each.rule == finding.rule) for finding in found}


def _with(start: Settings, changes: tuple[Change, ...]) -> Settings:
    """Return settings with changes made, as a person would type them."""
    typed: dict[str, Any] = {
        change.key: int(change.after) if change.key == "contours_n" else stated(float(f"{change.after:.4g}"))
        for change in changes
    }
    return replace(start, **typed)


def _sentence_works(start: Settings, judge: Judge, finding: Finding) -> bool:
    """Return whether some number of a finding's own sentence, typed into the setting that it speaks of, settles it."""
    kind = kind_of(finding.rule)
    keys = kind.sets.values() if "all" in kind.moves else [kind.setting_for(finding.feature) or ""]
    for text in re.findall(r"\d+(?:\.\d+)?", finding.remedy):
        typed: dict[str, Any] = {key: int(float(text)) if key == "contours_n" else stated(float(text)) for key in keys}
        found = judge(replace(start, **typed))
        same = [f for f in found if (f.rule, f.part, f.feature) == (finding.rule, finding.part, finding.feature)]
        if all(f.verdict is Verdict.GO for f in same):
            return True
    return "another printer" in finding.remedy  # nothing that the settings could say


def _out_of_reach(printer: Printer, material: Material) -> bool:
    """Return whether the printer cannot heat as far as the material's ranges begin."""
    return printer.nozzle_max_c.value < material.nozzle_c.low or printer.bed_max_c.value < material.bed_c.low


def test_a_setting_that_was_not_set_is_set(make_job: MakeJob) -> None:
    """Bridges take the outer contour's 90 mm/s where no speed is theirs: they get 40, and the contours keep theirs."""
    gate = solid_of(Manifold.cube((20, 20, 20)) - Manifold.cube((5, 30, 10)).translate((8, -5, 0)))
    text = TEXT + "[settings]\nouter_contour_speed_mm_s = 90.0\ninner_contour_speed_mm_s = 90.0\n"
    job = make_job(text, a=gate)
    none = replace(job, settings=replace(job.settings, bridge_speed_mm_s=None))
    judged = judged_settings(prepare(none, date(2026, 12, 1)))

    assert {change.key: (change.before, change.after) for change in judged.changes} == {
        "bridge_speed_mm_s": (None, 40.0)
    }
    assert judged.after is Verdict.GO


def test_the_command_says_it(make_job: MakeJob) -> None:
    """On a real part the changes stand beside the findings."""
    job = make_job(TEXT + "[settings]\nlayer_height_mm = 0.5\n", a=cuboid(20, 20, 5))
    judged = judged_settings(prepare(job, date(2026, 12, 1)))

    assert worst(judged.findings) is Verdict.NO_GO
    assert {change.key: round(change.after, 3) for change in judged.changes}["layer_height_mm"] == 0.32
    assert judged.after.passes

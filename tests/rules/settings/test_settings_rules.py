"""Settings rules: no false stop on right settings, every planted fault found and named."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from planner.finding import Finding, Verdict, worst
from planner.job import Job, read_material, read_printer, read_settings
from planner.layers import bead_area_mm2
from planner.plan import judged_settings, prepare
from planner.rules import settings_findings
from planner.scale import DRAWN
from planner.sourced import stated
from tests.conftest import MakeJob
from tests.shapes import Manifold, cuboid, solid_of

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'


@pytest.fixture(name="job")
def _job(make_job: MakeJob) -> Job:
    return make_job(TEXT, a=cuboid(40, 30, 10))


def _found(
    job: Job, *, printer: str = "bench-220", material: str = "petg", profile: str = "standard-0.4", **changes: Any
) -> tuple[Finding, ...]:
    """Run the rules without geometry."""
    values: dict[str, Any] = {k: v if isinstance(v, str | int) else stated(v) for k, v in changes.items()}
    settings = replace(read_settings(profile, Path()), **values)
    own = replace(job, settings=settings, printer=read_printer(printer, Path()))
    return settings_findings(own, read_material(material, Path()), surveys={}, estimates={}, downs={}, scale=DRAWN)


RIGHT = [
    ("bench-220", "petg", "standard-0.4", {}),
    ("bench-220", "petg", "fine-0.4", {}),
    ("small-180", "petg", "standard-0.4", {}),
    ("large-350", "petg", "standard-0.4", {}),
    ("round-240", "petg", "standard-0.4", {}),
    ("bench-220", "pla", "standard-0.4", {}),
    ("bench-220", "pla", "standard-0.4", {"fan_percent": 100.0}),
    ("cabinet-256", "asa", "standard-0.4", {"fan_percent": 10.0}),
    ("cabinet-256", "abs", "standard-0.4", {"fan_percent": 10.0}),
    ("cabinet-256", "petg", "standard-0.4", {}),
    ("cabinet-256", "pa12", "standard-0.4", {"fan_percent": 10.0}),
]


@pytest.mark.parametrize(("printer", "material", "profile", "changes"), RIGHT)
def test_right_settings_are_not_stopped(
    job: Job, printer: str, material: str, profile: str, changes: dict[str, Any]
) -> None:
    """Eleven right combinations give go throughout."""
    found = _found(job, printer=printer, material=material, profile=profile, **changes)

    assert worst(found) is Verdict.GO, [f.why for f in found if f.verdict is not Verdict.GO]
    assert len(found) >= 20


FAULTS: list[tuple[str, Verdict, dict[str, Any]]] = [
    ("layer.height", Verdict.NO_GO, {"layer_height_mm": 0.36}),
    ("layer.height", Verdict.NO_GO, {"layer_height_mm": 0.05}),
    ("layer.first", Verdict.GO_WITH_WORK, {"first_layer_height_mm": 0.10}),
    ("line.width", Verdict.NO_GO, {"line_width_mm": 0.80}),
    ("line.width", Verdict.NO_GO, {"profile": "strong-0.6"}),
    ("line.shape", Verdict.GO_WITH_WORK, {"layer_height_mm": 0.30, "line_width_mm": 0.355}),
    ("flow.melt", Verdict.GO_WITH_WORK, {"infill_speed_mm_s": 150.0}),
    ("nozzle.range", Verdict.GO_WITH_WORK, {"nozzle_c": 275.0}),
    ("nozzle.reach", Verdict.NO_GO, {"nozzle_c": 275.0}),
    ("bed.range", Verdict.GO_WITH_WORK, {"bed_c": 40.0}),
    ("bed.reach", Verdict.NO_GO, {"material": "pc"}),
    ("material.enclosure", Verdict.HOLD, {"material": "abs"}),
    ("fan.range", Verdict.GO_WITH_WORK, {"fan_percent": 100.0}),
    ("solid.layers", Verdict.GO_WITH_WORK, {"solid_top_mm": 0.2}),
    ("contours.load", Verdict.GO_WITH_WORK, {"contours_n": 1}),
    ("layer.cool", Verdict.GO_WITH_WORK, {"least_layer_s": 1.0}),
    ("speed.first", Verdict.GO_WITH_WORK, {"first_layer_speed_mm_s": 80.0}),
    ("spacing.parts", Verdict.GO_WITH_WORK, {"spacing_mm": 0.5}),
]


@pytest.mark.parametrize(("rule", "verdict", "changes"), FAULTS)
def test_a_planted_fault_is_found_and_named(job: Job, rule: str, verdict: Verdict, changes: dict[str, Any]) -> None:
    """Each fault gives its own rule the right verdict, with a remedy and a source."""
    hits = [f for f in _found(job, **changes) if f.rule == rule and f.verdict is verdict]

    assert hits
    assert all(f.remedy and f.source for f in hits)


def test_what_only_wastes_time_is_a_caution(job: Job) -> None:
    """Infill of 90 % and a speed beyond the printer stop nothing."""
    found = _found(job, infill_percent=90.0, travel_speed_mm_s=400.0)

    assert worst(found) is Verdict.GO
    assert {f.rule for f in found if f.caution} >= {"infill.share", "speed.reach"}


def test_the_flow_asked_for_is_bead_times_speed(job: Job) -> None:
    """60 mm/s of a 0.45 x 0.2 bead is 4.885 mm3/s (published closed form)."""
    flow = next(f for f in _found(job) if f.rule == "flow.melt" and f.feature == "inner contour")

    assert flow.measured == pytest.approx(4.885, abs=1e-3)
    assert flow.measured == pytest.approx(60 * bead_area_mm2(0.45, 0.2))


def test_rules_look_at_the_real_parts(make_job: MakeJob) -> None:
    """With geometry: support switched off under a T is work; the thinnest wall's lines are counted."""
    wide = solid_of(Manifold.cube((4, 20, 20)).translate((18, 0, 0)) + Manifold.cube((40, 20, 4)).translate((0, 0, 20)))
    job = make_job(TEXT + '[settings]\nsupport = "none"\n', a=wide)
    _, found, _, _ = judged_settings(prepare(job, date(2026, 12, 1)))

    assert "support.needed" in {f.rule for f in found if f.verdict is Verdict.GO_WITH_WORK}
    assert "lines" in next(f.why for f in found if f.rule == "wall.lines")

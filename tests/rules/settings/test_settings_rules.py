"""Settings rules: a table of settings written by hand before the rules, and planted faults, each found and named."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from planner.finding import Finding, Verdict
from planner.job import Job, read_material, read_printer, read_settings
from planner.layers import estimate_part
from planner.mesh import Solid, posed
from planner.plan import judged_settings, prepare
from planner.rules import settings_findings
from planner.scale import DRAWN
from planner.sourced import stated
from planner.survey import Survey, survey
from tests.conftest import MakeJob
from tests.shapes import DATA, Manifold, cuboid, cylinder, solid_of

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'


def test_rules_look_at_the_real_parts(make_job: MakeJob) -> None:
    """With geometry: support switched off under a T is work; the thinnest wall's lines are counted."""
    wide = solid_of(Manifold.cube((4, 20, 20)).translate((18, 0, 0)) + Manifold.cube((40, 20, 4)).translate((0, 0, 20)))
    job = make_job(TEXT + '[settings]\nsupport = "none"\n', a=wide)
    found = judged_settings(prepare(job, date(2026, 12, 1))).findings

    assert "support.needed" in {f.rule for f in found if f.verdict is Verdict.GO_WITH_WORK}
    assert "lines" in next(f.why for f in found if f.rule == "wall.lines")


HERE, DOWN = Path(), (0.0, 0.0, -1.0)
CASES: list[dict[str, Any]] = tomllib.loads((DATA / "settings" / "cases.toml").read_text(encoding="utf-8"))["case"]
PARTS: Mapping[str, Solid] = {
    "block": cuboid(40, 30, 10),
    "wide": cuboid(100, 80, 12),
    "pin": solid_of(cylinder(4, 20, 48)),
    "skin": cuboid(40, 0.9, 20),
    "rib": cuboid(60, 1.8, 20),
}
ADVICE = {"material.dry", "material.air", "layer.wait"}
"""Said of every job with the material, or of a part that is printed alone: no word on the settings."""
TOLD = {
    "caution": Verdict.GO,
    "work": Verdict.GO_WITH_WORK,
    "hold": Verdict.HOLD,
    "no-go": Verdict.NO_GO,
}
CASE_TEXT = '[job]\nname = "x"\nmaterial = "{}"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "{}"\npose = [0, 0, -1]\n'


@cache
def _survey(part: str) -> Survey:
    """Survey a part once."""
    return survey(PARTS[part])


def findings_of(case: Mapping[str, Any], make_job: MakeJob) -> tuple[Finding, ...]:
    """Return all findings of a case, with its part laid in layers."""
    part, material = case.get("part", "block"), read_material(case.get("material", "petg"), HERE)
    job: Job = make_job(CASE_TEXT.format(material.name, case.get("duty", "load")), a=PARTS[part])
    printer = read_printer(case.get("printer", "bench-220"), HERE)
    printer = replace(printer, nozzle_mm=stated(case.get("nozzle_mm", printer.nozzle_mm.value)))
    values: dict[str, Any] = {k: v if isinstance(v, int) else stated(v) for k, v in case.get("settings", {}).items()}
    settings = replace(read_settings(case.get("profile", "standard-0.4"), HERE), **values)
    estimate = estimate_part(posed(PARTS[part], DOWN), settings=settings, printer=printer, material=material)
    return settings_findings(
        replace(job, settings=settings, printer=printer),
        material,
        surveys={"a": _survey(part)},
        estimates={"a": replace(estimate, part="a")},
        downs={"a": DOWN},
        scale=DRAWN,
    )


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_a_case_is_told_what_a_workshop_would_say(case: dict[str, Any], make_job: MakeJob) -> None:
    """Nothing is missing, nothing is added, and each rule speaks as loud as the table says."""
    told: dict[str, Verdict] = {}
    found = findings_of(case, make_job)
    for finding in found:
        if finding.rule not in ADVICE and (finding.verdict is not Verdict.GO or finding.caution):
            told[finding.rule] = max(told.get(finding.rule, Verdict.GO), finding.verdict, key=lambda v: v.severity)

    assert told == {rule: TOLD[word] for rule, word in case["told"].items()}, case["why"]
    assert all(f.source and (f.remedy or f.verdict is Verdict.GO) for f in found)


def test_the_table_is_worth_asking() -> None:
    """Half of it is settings that must go; every case has a reason and a source of its own; four nozzles, seven materials."""
    go = [case for case in CASES if not {"work", "hold", "no-go"} & set(case["told"].values())]

    assert len(CASES) >= 60
    assert len(go) >= len(CASES) // 2
    assert all(case["why"] and case["source"] for case in CASES)
    assert {case.get("nozzle_mm", 0.4) for case in CASES} == {0.25, 0.4, 0.6, 0.8}
    assert len({case.get("material", "petg") for case in CASES}) == 7

"""The plan as JSON: every key of the contract, finite numbers, null with a reason where something is not known."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from planner.output import page, plan_json, window_json
from planner.plan import Plan, make_plan, prepare
from tests.conftest import MakeJob
from tests.shapes import Manifold, bored_plate, solid_of

TODAY = date(2026, 12, 1)


KEYS = {
    "": "verdict scale_percent plates totals worn_g material schedule hardware cuts findings",
    "plates": "number material colour duration_s mass_g file placements",
    "plates.placements": "part copy x_mm y_mm turn_deg",
    "totals": "duration_s mass_g cost",
    "totals.duration_s": "value low high",
    "material": "choice reasons rejected",
    "schedule": "plate printer start end",
    "findings": "rule part verdict measured limit unit at_mm why remedy source caution",
}


@pytest.mark.parametrize("place", KEYS)
def test_every_key_of_the_contract_is_there(plan: Plan, place: str) -> None:
    """The plan's JSON has each key that checks rely on, and is finite JSON."""
    found: Any = json.loads(json.dumps(plan_json(plan), allow_nan=False))
    for key in filter(None, place.split(".")):
        found = found[key][0] if isinstance(found[key], list) else found[key]

    assert set(KEYS[place].split()) <= set(found)


def test_the_plan_is_whole(plan: Plan) -> None:
    """Every copy lies on a plate; sums add up; the Heron goes with its work and is lighter than its limit."""
    copies = sum(len(plate.placements) for plate in plan.plates)

    assert copies == sum(part.part.count for part in plan.parts) == 27
    assert plan.totals.mass_g is not None
    assert plan.totals.mass_g.value == pytest.approx(sum(p.mass_g.value for p in plan.plates if p.mass_g))
    assert plan.verdict.value == "go-with-work"
    assert plan.worn_g is not None
    assert plan.worn_g < 250.0


def test_an_unsound_mesh_withholds_grams_and_is_still_planned(make_job: MakeJob, tmp_path: Path) -> None:
    """What could be computed is written, the rest is null with a reason."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
    part = solid_of(Manifold.cube((30, 20, 10)) + Manifold.cube((10, 10, 20)))
    job = make_job(text, a=part)
    raw = bytearray((tmp_path / "a.stl").read_bytes())
    raw[80:84] = (int.from_bytes(raw[80:84], "little") - 6).to_bytes(4, "little")
    (tmp_path / "a.stl").write_bytes(raw[: -6 * 50])
    plan = make_plan(prepare(job, TODAY))
    found: Any = plan_json(plan)

    assert plan.verdict.value == "hold"
    assert found["totals"]["mass_g"] is None
    assert "not sound" in found["totals"]["withheld"]
    assert found["totals"]["duration_s"]["value"] > 0
    assert "withheld" in page(plan)


def test_an_empty_window_is_null_with_causes(make_job: MakeJob) -> None:
    """Nulls stand for an end that nothing bounds, and for an empty window with its causes."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
    from planner.size import window

    ready = prepare(make_job(text, a=bored_plate(40, 30, 8, [(20, 15, 6.35, 48)])), TODAY)
    found: Any = window_json(window(ready.bound.rules, 100.0), (), 100.0)

    assert found["workable"]["low_percent"] is None
    assert found["workable"]["causes"][0]["rule"] == "bore.unclaimed"

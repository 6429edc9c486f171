"""Parts with a layer height of their own: plates of their own, sliced, timed, weighed and judged with it."""

from __future__ import annotations

from datetime import date

import pytest

from planner.errors import JobError
from planner.layers import estimate_part, plate_duration_s
from planner.output import plan_json
from planner.plan import Plan, judged_settings, make_plan, prepare
from planner.plan.audited import meant_plate
from tests.conftest import MakeJob
from tests.shapes import cuboid

TODAY = date(2026, 11, 26)
TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n'
    '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "shell"\npose = [0, 0, -1]\n'
    '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "shell"\npose = [0, 0, -1]\nlayer_height_mm = {height}\n'
)


def _plan(make_job: MakeJob, height: str, more: str = "") -> Plan:
    """Return the plan of two equal parts, one with a layer height of its own."""
    text = TEXT.format(height=height) + more
    return make_plan(prepare(make_job(text, a=cuboid(30, 20, 12), b=cuboid(30, 20, 12)), TODAY))


def test_a_layer_height_of_its_own_makes_a_plate_of_its_own(make_job: MakeJob) -> None:
    """Half the layer height is twice the layers, on another plate that says so; grams stay those of the same volume."""
    plan = _plan(make_job, "0.1")
    one, other = sorted(plan_json(plan)["plates"], key=lambda row: -row["layer_height_mm"])  # type: ignore[call-overload]
    layers = {p.part.name: p.estimate.layers_n for p in plan.parts if p.estimate}

    assert [one["layer_height_mm"], other["layer_height_mm"]] == [0.2, 0.1]
    assert [one["placements"][0]["part"], other["placements"][0]["part"]] == ["a", "b"]
    assert layers == {"a": 60, "b": 119}  # 0.24 + n h up to 12 mm (arithmetic)
    assert other["mass_g"] == pytest.approx(one["mass_g"], rel=0.03)
    assert other["duration_s"] > 1.3 * one["duration_s"]
    assert "layers 0.1 mm" in {plate.group.by_hand.split(", ")[-1] for plate in plan.plates}


def test_a_plate_is_timed_and_audited_with_its_height(make_job: MakeJob) -> None:
    """The plate's time is that of the part laid in such layers, and a program is compared with them."""
    plan = _plan(make_job, "0.1")
    plate = next(p for p in plan.plates if p.group.layer_height_mm == 0.1)
    settings = plan.job.settings_at(0.1)
    material = next(m for m in plan.job.materials if m.name == "petg")
    solid = next(p.posed for p in plan.parts if p.part.name == "b")
    alone = estimate_part(solid, settings=settings, printer=plan.job.printer, material=material)

    assert plate.duration_s == plate_duration_s([alone], settings=settings, printer=plan.job.printer)
    assert meant_plate(plan, plate.number).settings.layer_height_mm.value == 0.1


def test_the_height_of_the_settings_is_no_height_of_its_own(make_job: MakeJob) -> None:
    """A part that asks for what all have shares their plate."""
    assert len(_plan(make_job, "0.2").plates) == 1


def test_rules_judge_an_own_height_on_its_parts_alone(make_job: MakeJob) -> None:
    """Layers too thick for the nozzle are found for the part that asks for them; the settings stay as they are."""
    plan = _plan(make_job, "0.39")
    found = [f for f in plan.findings if f.rule == "layer.height"]
    judged = judged_settings(prepare(plan.job, TODAY))

    assert {(f.feature.partition(", ")[2], f.verdict.passes and f.verdict.value == "go") for f in found} == {
        ("", True),
        ("layers of 0.39 mm", False),
    }
    assert not {f.part for f in plan.findings if f.feature.endswith("layers of 0.39 mm")} - {"", "b"}
    assert judged.changes == ()
    assert judged.after.value != "go"


def test_parts_of_different_heights_cannot_lie_together(make_job: MakeJob) -> None:
    """A set of parts that are to share a plate is named where their heights differ."""
    plan = _plan(make_job, "0.1", '[plan]\ntogether = [["a", "b"]]\n')

    assert [f.feature for f in plan.findings if f.rule == "plate.together"] == ["a, b"]


@pytest.mark.parametrize("height", ["0.0", "-0.1", "3.0", '"thin"'])
def test_impossible_heights_are_refused(make_job: MakeJob, height: str) -> None:
    """Bad values are one sentence that names the key."""
    with pytest.raises(JobError, match="layer_height_mm"):
        make_job(TEXT.format(height=height), a=cuboid(9, 9, 9), b=cuboid(9, 9, 9))

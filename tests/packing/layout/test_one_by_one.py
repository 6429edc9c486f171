"""One after another: the head hits nothing, a plate takes one tall piece, a failure loses one piece, or a hold."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from datetime import date
from pathlib import Path

import numpy as np
import pytest
import shapely

from planner.errors import JobError
from planner.finding import Verdict
from planner.job import shipped
from planner.output import write_plan
from planner.packing import InTurn, Item, Rules, pack, verify
from planner.plan import Plan, make_plan, prepare
from planner.schedule import Hazard, risk_in_turn, risk_of
from tests.conftest import MakeJob
from tests.packing.judge import faults
from tests.packing.part_sets import BED, item_of
from tests.shapes import cuboid

TODAY = date(2026, 11, 26)
ROOM = InTurn(clear_mm=25.0, under_mm=30.0)
RULES = Rules(in_turn=ROOM)


def _items() -> list[Item]:
    """Return low, middle and tall pieces."""
    sizes = {"low": (5.0, 6), "middle": (20.0, 4), "tall": (60.0, 3)}
    return [
        replace(item_of(name, shapely.box(0, 0, 30, 18), n), height_mm=height) for name, (height, n) in sizes.items()
    ]


def test_plates_in_turn_are_proved_and_hold_one_tall_piece_each() -> None:
    """Three tall pieces are three plates; each is the last of its plate, and all lie the head's reach apart."""
    items = _items()
    plates = pack(items, bed=BED, spacing_mm=4.0, seed=1, budget_s=1.0, rules=RULES).plates
    heights = {item.part: item.height_mm for item in items}

    assert verify(plates, items, bed=BED, spacing_mm=4.0, rules=RULES) == ()
    assert faults(plates, items, BED, ROOM.clear_mm) == []  # the second judge, with the reach as spacing
    assert len(plates) == 3
    for plate in plates:
        high = [heights[p.part] for p in plate.placements]
        assert high == sorted(high)  # low ones first
        assert high[-1] == 60.0


def test_the_proof_plays_the_order_and_finds_what_is_planted() -> None:
    """A tall piece before another, and two pieces nearer than the reach, are named."""
    items = _items()
    plate = pack(items, bed=BED, spacing_mm=4.0, seed=1, budget_s=0.0, rules=RULES).plates[0]
    turned = replace(plate, placements=plate.placements[::-1])
    first, second, *rest = plate.placements
    near = replace(plate, placements=(first, replace(second, x_mm=first.x_mm + 40.0, y_mm=first.y_mm), *rest))

    def told(*plates: object, of: list[Item] = items) -> str:
        return " ".join(verify(plates, of, bed=BED, spacing_mm=4.0, rules=RULES))  # type: ignore[arg-type]

    assert "hits" not in told(plate)
    assert "is 60.00 mm high and stands before" in told(turned)
    assert "the head reaches 25 mm" in told(near)
    assert "hits" not in " ".join(verify([near], items, bed=BED, spacing_mm=4.0))


def test_a_failure_in_turn_loses_one_piece_by_simulation() -> None:
    """Outside check: the formula against 40,000 seeded plays of the same story (law of large numbers)."""
    hazard = Hazard(per_hour=0.2, change_s=900.0, heat_up_s=300.0)
    pieces, grams = [3900.0, 7200.0, 5400.0], [20.0, 45.0, 30.0]
    rng, rate = np.random.default_rng(7), 0.2 / 3600.0
    times, lost = np.zeros(40_000), np.zeros(40_000)
    for play in range(len(times)):
        for number, piece in enumerate(pieces):
            heat = 300.0 if number == 0 else 0.0
            lays = piece - heat
            while True:
                until = rng.exponential(1.0 / rate)
                if until >= heat + lays:
                    times[play] += heat + lays
                    break
                times[play] += until + 900.0
                lost[play] += grams[number] * max(0.0, until - heat) / lays
                heat = 300.0
    risk = risk_in_turn(pieces, grams, hazard)
    whole = risk_of(sum(pieces), sum(grams), hazard)

    assert risk.expected_s == pytest.approx(float(times.mean()), rel=0.01)
    assert risk.lost_g == pytest.approx(float(lost.mean()), rel=0.03)
    assert risk.failure_percent == pytest.approx(100 * (1 - math.exp(-0.2 * sum(pieces) / 3600)))
    assert whole.lost_g is not None
    assert risk.lost_g is not None
    assert risk.lost_g < 0.6 * whole.lost_g


def test_one_piece_in_turn_is_a_plate_as_any() -> None:
    """With one piece there is nothing to keep: the risk is that of the whole plate."""
    hazard = Hazard(per_hour=0.05, change_s=900.0, heat_up_s=300.0)

    assert risk_in_turn([9000.0], [40.0], hazard) == risk_of(9000.0, 40.0, hazard)


TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\nprinter = "{printer}"\n'
    '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "shell"\npose = [0, 0, -1]\ncount = 3\n'
    '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "shell"\npose = [0, 0, -1]\n'
    '[plan]\norder = "one-after-another"\nstart = 2026-12-01T17:30:00\n'
)


def _plan(make_job: MakeJob, tmp_path: Path, *, keys: str) -> Plan:
    """Return the plan of three low pieces and a tall one on a printer with some measures."""
    profile = (shipped("profiles") / "printers" / "bench-220.toml").read_text(encoding="utf-8")
    (tmp_path / "own.toml").write_text(keys + profile, encoding="utf-8")
    job = make_job(TEXT.format(printer="own.toml"), a=cuboid(30, 20, 6), b=cuboid(30, 20, 40))
    return make_plan(prepare(job, TODAY))


def test_a_job_in_turn_from_file_to_manifest(make_job: MakeJob, tmp_path: Path) -> None:
    """The order goes into plan and manifest; time is the sum of the pieces' own; less is lost than together."""
    plan = _plan(make_job, tmp_path, keys="head_clear_mm = 30.0\nunder_gantry_mm = 25.0\n")
    together = replace(plan.job, calendar=replace(plan.job.calendar, order="together"))  # type: ignore[type-var]
    other = make_plan(prepare(together, TODAY))
    write_plan(plan, tmp_path / "out")
    told = json.loads((tmp_path / "out" / "plan.json").read_text(encoding="utf-8"))["plates"]
    kept = json.loads((tmp_path / "out" / "plates" / "manifest.json").read_text(encoding="utf-8"))

    assert [plate["order"] for plate in told] == ["one-after-another"]
    assert told[0]["sequence"][-1] == "b 1"
    assert kept["one_after_another"] == {told[0]["file"]: told[0]["sequence"]}
    assert sum(told[0]["kinds_s"].values()) == pytest.approx(told[0]["duration_s"])
    hops = [each.plates[0].kinds_s["from copy to copy"] for each in (plan, other)]
    assert hops[0] < hops[1]  # a layer change for every layer of every copy, yet no way from copy to copy in each
    mine, theirs = plan.batches[0].whole, other.batches[0].whole
    assert mine.lost_g is not None
    assert theirs.lost_g is not None
    assert mine.lost_g / mine.failures_n < theirs.lost_g / theirs.failures_n
    assert plan.clocks is not None
    assert plan.clocks.table.tasks[0].ends[0] == pytest.approx(300.0 / plan.plates[0].duration_s.value)
    assert plan.clocks.table.tasks[0].ends[-1] == pytest.approx(1.0)
    assert not [f for f in plan.findings if f.rule == "plate.order"]


@pytest.mark.parametrize(("keys", "asked"), [("", 2), ("head_clear_mm = 30.0\n", 1), ("under_gantry_mm = 25.0\n", 1)])
def test_without_measures_it_is_a_hold_that_says_what_to_measure(
    make_job: MakeJob, tmp_path: Path, keys: str, asked: int
) -> None:
    """No reach is guessed: the job is held, plates are laid out for printing together, and the keys are named."""
    plan = _plan(make_job, tmp_path, keys=keys)
    (found,) = [f for f in plan.findings if f.rule == "plate.order"]

    assert found.verdict is Verdict.HOLD
    assert sum(key in found.remedy for key in ("head_clear_mm", "under_gantry_mm")) == asked
    assert not any(plate.in_turn for plate in plan.plates)
    assert found.question in [question.text for question in plan.questions]


def test_an_unknown_order_is_refused(make_job: MakeJob) -> None:
    """The nearest word is named."""
    text = TEXT.format(printer="bench-220").replace("one-after-another", "one-after-anothr")
    with pytest.raises(JobError, match="one-after-another"):
        make_job(text, a=cuboid(9, 9, 9), b=cuboid(9, 9, 9))

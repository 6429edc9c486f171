"""Plates as they are kept: what fits nowhere is said, and what does not hold is never written."""

from __future__ import annotations

from datetime import date

import pytest

from planner.output import page
from planner.plan import make_plan, prepare
from tests.conftest import MakeJob
from tests.shapes import cuboid

TODAY = date(2026, 12, 1)


@pytest.mark.parametrize(("guessed", "verdict"), [("", "no-go"), ('guessed = ["printer"]\n', "hold")])
def test_a_part_that_fits_no_plate_is_said(make_job: MakeJob, guessed: str, verdict: str) -> None:
    """A part too long for the bed is in the findings, and the rest is planned; nobody's bed ends nothing."""
    text = f'[job]\nname = "x"\nprinter = "bench-220"\nmaterial = "petg"\n{guessed}' + "".join(
        f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "cover"\n' for name in ("long", "short")
    )
    plan = make_plan(prepare(make_job(text, long=cuboid(400, 20, 5), short=cuboid(30, 20, 5)), TODAY))

    assert [(f.part, f.verdict.value) for f in plan.findings if f.rule == "plate.unplaced"] == [("long", verdict)]
    assert plan.verdict.value == verdict
    assert [place.part for plate in plan.plates for place in plate.placements] == ["short"]


def test_a_layout_that_does_not_hold_is_never_written(make_job: MakeJob, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the proof finds anything, there are no plates and the finding holds."""
    monkeypatch.setattr("planner.plan.plates.packed_plates.verify", lambda *_, **__: ("a 1 and b 1 overlap",))
    text = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
    plan = make_plan(prepare(make_job(text, a=cuboid(30, 20, 5)), TODAY))

    assert plan.plates == ()
    assert "plate.proof" in {f.rule for f in plan.findings if f.verdict.value == "hold"}
    assert "withheld" in page(plan)

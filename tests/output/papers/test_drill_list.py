"""The drill list: each opening that needs work, with the wall that stays."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace

import pytest

from planner.finding import Verdict
from planner.output import Sheet
from planner.output.paper_files.sheet import Rows
from planner.output.papers.drill_list import drill_list, work_of
from planner.plan import Plan, make_plan, prepare
from tests.conftest import TODAY, MakeJob
from tests.output.said import said
from tests.shapes import Manifold, cylinder, solid_of


def test_the_drill_list_has_the_wall_that_stays(plan: Plan, sheets: dict[str, Sheet]) -> None:
    """The yoke's bore: from its own finding about the wall beside it, after drilling, with the limit."""
    edge = next(f for f in plan.findings if f.rule == "bore.edge" and f.feature.startswith("yoke middle screw"))
    table = next(block for block in sheets["drill"].cards[0].blocks if isinstance(block, Rows))

    assert table.rows[0][0] == "yoke"
    assert "drill 2.94 to 3.10 mm" in table.rows[0][2]
    assert table.rows[0][3:5] == (f"{edge.measured:.2f} mm", f"{edge.limit:.2f} mm")
    assert "Wear eye protection" in said(sheets["drill"])


def test_a_reamed_channel_has_its_wall_too(make_job: MakeJob) -> None:
    """A 2 mm bore in the middle of a bar 10 mm wide, at 60 %, reamed to 1.3 mm: 0.6 x 5 - 0.65 = 2.35 mm (by hand)."""
    bar = solid_of(
        Manifold.cube((40.0, 10.0, 10.0), True) - cylinder(2.0, 80, 32).translate((0, 0, -40)).rotate((0, 90, 0))
    )
    text = (
        '[job]\nname = "x"\nmaterial = "petg"\n[size]\npercent = 60.0\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
        '[[cord]]\nname = "pull"\npart = "a"\ndiameter_mm = 1.0\nchannel_mm = 2.0\npath_mm = 100.0\n'
    )
    plan = make_plan(prepare(make_job(text, a=bar), TODAY))

    work = next(one for one in work_of(plan) if one.feature == "pull")

    assert work.what == "ream the channel to 1.30 mm"
    assert work.left_mm == pytest.approx(2.35, abs=0.01)


def test_what_is_on_the_list_is_not_told_twice(plan: Plan) -> None:
    """A bore that the coupon decides and that is to be drilled anyway stands among the work, not below it."""
    bore = next(f for f in plan.findings if f.rule == "bore.tight" and f.question and f.verdict is Verdict.GO)
    drilled = replace(bore, verdict=Verdict.GO_WITH_WORK, feature="other screw in b9 (3.00 mm)")
    text = said(drill_list(SimpleNamespace(findings=(bore, drilled), built=SimpleNamespace(work=()), parts=())))  # type: ignore[arg-type]

    assert bore.feature.split(" in ")[0] in text
    assert "other screw" not in text

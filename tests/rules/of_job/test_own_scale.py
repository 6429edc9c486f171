"""Parts with a scale of their own."""

from __future__ import annotations

from datetime import date

import pytest

from planner.finding import Verdict
from planner.plan import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import bored_plate

TODAY = date(2026, 12, 1)
TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'
    '[[hardware]]\nname = "post"\nkind = "binding-post"\ndiameter_mm = 5.0\nbore_mm = 5.3\nfit = "turning"\njoins = ["a"]\n'
)


def test_an_uneven_scale_across_a_bore_is_oval(make_job: MakeJob) -> None:
    """Across the axis more than 0.5 % is no-go; along it nothing is said."""
    text = TEXT.replace('duty = "load"', 'duty = "load"\nscale = {}')
    plate = bored_plate(60, 40, 8, [(20, 20, 5.3, 48)])
    across = prepare(make_job(text.replace("{}", "[104.0, 100.0, 100.0]"), a=plate), TODAY)
    along = prepare(make_job(text.replace("{}", "[102.0, 102.0, 130.0]"), a=plate), TODAY)

    assert "bore.oval" in {f.rule for f in check(across.bound, 100.0).findings if f.verdict is Verdict.NO_GO}
    assert "bore.oval" not in {f.rule for f in check(along.bound, 100.0).findings if f.verdict is not Verdict.GO}


def test_a_part_that_keeps_its_size_is_judged_at_that_size_alone(make_job: MakeJob) -> None:
    """At 50 % of the device its bore is still 5.3 mm, as the mesh is; without a scale of its own it is half that."""
    plate = bored_plate(60, 40, 8, [(20, 20, 5.3, 48)])
    kept = prepare(make_job(TEXT.replace('duty = "load"', 'duty = "load"\nscale = 100.0'), a=plate), TODAY)
    grown = prepare(make_job(TEXT, a=plate), TODAY)
    found = {
        name: [f for f in check(ready.bound, 50.0).findings if f.rule == "bore.tight"]
        for name, ready in (("kept", kept), ("grown", grown))
    }

    assert found["kept"][0].measured == pytest.approx(2.0 * (found["grown"][0].measured or 0.0), abs=0.5)

"""A printed pin that its bores no longer fit when the device grows keeps its drawn size."""

from __future__ import annotations

from datetime import date

from planner.finding import Verdict
from planner.plan import prepare
from planner.plan.changed_job import stands
from planner.remedy.group import groups_of
from planner.remedy.trials import Trials, proved
from planner.remedy.ways.own_size import kept_as_drawn
from tests.conftest import MakeJob
from tests.remedy.ways.test_stronger_part import PIN
from tests.shapes import bored_plate, cylinder, solid_of


def test_a_printed_pin_keeps_its_size_while_the_device_shrinks(make_job: MakeJob) -> None:
    """At 70 % a pin of 6 mm comes out 4.2 mm thick and its bores are judged for 6: at 100 % by itself it fits again."""
    text = PIN.replace("percent = 100.0", "percent = 70.0").replace("load_n = 100.0", "load_n = 5.0")
    block = bored_plate(20, 20, 34, [(10, 10, 9.4, 64)])
    ready = prepare(make_job(text, peg=solid_of(cylinder(6.0, 40.0, 64)), block=block), date(2026, 12, 1))
    stand, again = stands(ready)
    (group,) = [one for one in groups_of(stand) if one.kind.name == "size.apart"]
    (keeps,) = kept_as_drawn(stand, group, again)
    after = Trials(stand, again).after(keeps.does, posed=False)

    assert group.findings[0].verdict is Verdict.HOLD
    assert keeps.does[0].put == {"scale": 100.0}
    assert not [one for one in groups_of(after) if one.kind.name == "size.apart"]
    assert proved(Trials(stand, again), group, keeps).kind == "keep"

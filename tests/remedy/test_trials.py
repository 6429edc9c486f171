"""Changes are judged once, and refused by their own finding before any answer is asked."""

from __future__ import annotations

from planner.job import Edit
from planner.plan import prepare
from planner.plan.changed_job import stands
from planner.remedy.trials import Trials
from tests.conftest import MakeJob
from tests.remedy.devices import PART, TODAY
from tests.shapes import cuboid

WIDTH = Edit(table="settings", put={"line_width_mm": 0.4})


def test_what_fails_with_every_guess_taken_for_a_fact_is_refused_by_its_own_finding(make_job: MakeJob) -> None:
    """A plate of 1.0 mm that carries needs three lines: 0.40 mm leaves it too thin, 0.33 mm does not."""
    trials = Trials(*stands(prepare(make_job(PART, a=cuboid(40, 30, 1.0)), TODAY)))
    keys = [key for key in trials.stand.answers if key[0] == "wall.thin"]

    assert "1.20 mm" in trials.still_fails(keys, (WIDTH,))
    assert trials.still_fails(keys, (Edit(table="settings", put={"line_width_mm": 0.33}),)) == ""


def test_a_change_is_judged_once(make_job: MakeJob) -> None:
    """The same edits give the same state, whoever asks."""
    trials = Trials(*stands(prepare(make_job(PART, a=cuboid(40, 30, 10)), TODAY)))

    assert trials.after((WIDTH,), posed=False) is trials.after((WIDTH,), posed=False)

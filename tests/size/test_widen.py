"""What widens the window: each step tried alone gives just the interval that doing it gives."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from planner.finding import Vec3
from planner.job import Job, Spool, read_printer, with_changes
from planner.plan import Prepared, prepare, what_widens
from planner.rules import Rule, check
from planner.size import Interval, Reach, feature_windows, nearest_percent, widen, widenings, window
from tests.conftest import MakeJob
from tests.shapes import bored_plate, cuboid

TODAY = date(2026, 12, 1)
PART = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'
PIN = (
    '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = 5.3\nfit = "turning"\njoins = ["a"]\n'
)


def test_the_nearest_size_that_works_passes_the_check(heron_ready: Prepared) -> None:
    """At a size that fails, the one named passes, device and person, and a tenth of a percent nearer does not."""
    for percent in (70.0, 100.0, 130.0, 200.0):
        reach = window(heron_ready.bound.rules, percent).passes
        nearest = nearest_percent(reach, percent)
        assert nearest is not None
        assert check(heron_ready.bound, nearest).verdict.passes
        beside = nearest + (0.1 if nearest < percent else -0.1)
        assert not check(heron_ready.bound, beside).verdict.passes


def test_inside_the_window_the_nearest_is_the_size_itself(heron_ready: Prepared) -> None:
    """106.5 % works, so nothing else is named."""
    assert nearest_percent(window(heron_ready.bound.rules, 106.5).workable, 106.5) == 106.5


@settings(max_examples=40)
@example(low=10.000000000000002, width=0.0, asked=5.0)
@given(low=st.floats(10, 200), width=st.floats(0, 100), asked=st.floats(5, 400))
def test_the_nearest_never_leaves_the_interval(low: float, width: float, asked: float) -> None:
    """Rounding goes inward, also in an interval narrower than a tenth of a percent."""
    interval = Interval(low_percent=low, high_percent=low + width, low_cause=None, high_cause=None)
    nearest = nearest_percent(Reach(nearest=interval, intervals=(interval,), causes=()), asked)

    assert nearest is not None
    assert low <= nearest <= low + width


def test_loads_are_put_on_parts_only_where_all_else_would_gain(
    make_job: MakeJob, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Rules of load only take away: what gains nothing without them is not bound with them, and steps stay the same."""
    ready = prepare(make_job(PART, a=cuboid(200, 100, 10)), TODAY)
    bound: list[tuple[str, bool]] = []

    def steps() -> list[tuple[str, Interval]]:
        def bind(job: Job, downs: Mapping[str, Vec3], *, cut: bool = True) -> Sequence[Rule]:
            bound.append((job.printer.name, cut))
            return ready.rules_for(job, downs, cut=cut)

        printers = [read_printer(name, Path()) for name in ("large-350", "small-180")]
        found = widenings(ready.job, ready.bound.every, ready.surveys, ready.downs, 100.0, bind, printers, [])
        return [(step.what, step.interval) for step in found]

    told = steps()
    assert bound[-3:] == [("large-350", False), ("large-350", True), ("small-180", False)]
    monkeypatch.setattr(widen, "_may_gain", lambda *_: True)
    assert steps() == told


def test_a_larger_printer_widens_a_window_that_the_bed_ends(make_job: MakeJob) -> None:
    """A plate of 200 mm ends at 105 % on 210 usable mm; on 350 mm less twice 8 mm it ends at 334/200 (geometry)."""
    ready = prepare(make_job(PART, a=cuboid(200, 100, 10)), TODAY)
    steps = {step.what.split(" (")[0]: step for step in what_widens(ready)}

    assert steps["print on large-350"].interval.high_percent == pytest.approx(100 * 334 / 200, abs=0.01)
    assert "print on small-180" not in steps


def test_a_kept_answer_is_that_of_other_dates_and_reels_but_of_no_other_bed(make_job: MakeJob) -> None:
    """Asked with other dates and grams it says what it said; a smaller bed is another question."""
    job = make_job(PART, a=cuboid(200, 100, 10))
    first = what_widens(prepare(job, TODAY))
    later = replace(job, calendar=None, spools=(Spool(material="petg", left_g=12.0),))
    smaller = replace(job, printer=read_printer("small-180", job.path.parent))

    assert what_widens(prepare(later, TODAY)) == first
    assert what_widens(prepare(smaller, TODAY)) != first


def test_another_pose_widens_where_height_ends_it(make_job: MakeJob) -> None:
    """A 200 mm rod stood up by order ends at the bed's height; lying it ends at the bed's diagonal."""
    upright = PART.replace("[0, 0, -1]", "[-1, 0, 0]").replace('"load"', '"cover"')
    ready = prepare(make_job(upright, a=cuboid(230, 12, 10)), TODAY)
    best = [step for step in what_widens(ready) if step.what.startswith("lay a with")]

    assert best
    assert best[0].gain_percent > 0


def test_a_bore_put_back_widens_as_taking_its_rules_away(make_job: MakeJob) -> None:
    """Re-boring alone: the interval is that of the job without the bore's fit rules.

    1.55 mm stand beside the bore: drilled to 5.2 it needs (1.35 + 2.6) / 4.2 = 94 %, as it is 1.35 / 1.55 = 87 %.
    """
    plate = bored_plate(60, 40, 8, [(4.2, 20, 5.3, 48)])
    ready = prepare(with_changes(make_job(PART + PIN, a=plate), percent=90.0), TODAY)
    step = next(step for step in what_widens(ready) if "rebore" in step.what)
    rest = [rule for rule in ready.bound.rules if rule.rule not in ("bore.tight", "bore.loose")]

    assert step.interval == window(rest, 90.0).workable.nearest
    assert step.interval.low_percent == pytest.approx(100 * 1.35 / 1.55, abs=0.1)


def test_every_limit_of_the_device_is_listed_and_the_tightest_comes_first(heron_ready: Prepared) -> None:
    """The first feature ends the device's own window; all of them together give it."""
    features = feature_windows(heron_ready.bound.rules, 106.5)
    whole = window(heron_ready.bound.rules, 106.5).workable.nearest
    lows = [one.workable.nearest.low_percent for _, one in features if one.workable.nearest]

    assert whole is not None
    assert max(low for low in lows if low is not None) == whole.low_percent
    assert features[0][1].workable.nearest is not None
    assert features[0][1].workable.nearest.low_percent == whole.low_percent

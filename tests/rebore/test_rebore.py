"""Re-bore: bores at hardware size after scaling, the mesh sound, and nothing else changed."""

from __future__ import annotations

import math
from datetime import date
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planner.finding import Verdict
from planner.job import Job, read_job, with_changes
from planner.plan import prepare, prepare_rebored
from planner.rules import check
from planner.size import window
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate, ngon_area, tube

TODAY = date(2026, 12, 1)
PART = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'
POST = '[[hardware]]\nname = "post"\nkind = "binding-post"\ndiameter_mm = 5.0\nbore_mm = 5.3\nfit = "turning"\njoins = ["a"]\n'
N = 64


@pytest.fixture(name="job")
def _job(make_job: MakeJob) -> Job:
    return make_job(PART + POST, a=bored_plate(60, 40, 8, [(15, 20, 5.3, 48), (45, 20, 5.3, 48)]))


@settings(max_examples=12, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(percent=st.floats(60.0, 180.0))
def test_bores_fit_their_hardware_at_any_scale(job: Job, percent: float) -> None:
    """After re-boring each bore lies within 0.02 mm of its aim, and volume changes by the bores' cylinders within 1 %."""
    before = prepare(with_changes(job, percent=percent), TODAY)
    result, after = prepare_rebored(before)
    s, found = percent / 100, survey(result.solids["a"])
    plain = before.solids["a"].volume_mm3 * s**3

    assert found.sound
    assert len(found.bores) == 2
    assert check(after.bound, 100.0).verdict is Verdict.GO
    for change, bore in zip(result.changes, found.bores, strict=True):
        assert bore.drawn_diameter_mm == pytest.approx(change.after_mm, abs=0.02)
        assert 5.2 <= bore.diameter_mm - 0.20 <= 5.6
    moved = sum((ngon_area(c.before_mm, 48) - ngon_area(c.after_mm, N)) * 8 * s for c in result.changes if not c.kept)
    assert result.solids["a"].volume_mm3 - plain == pytest.approx(moved, rel=0.01, abs=0.02)


def test_nothing_but_the_bores_changes(job: Job) -> None:
    """Box, and every corner away from the bores, stay where they were."""
    ready = prepare(with_changes(job, percent=87.0), TODAY)
    result, _ = prepare_rebored(ready)
    scaled, made = ready.solids["a"].scaled(0.87), result.solids["a"]
    outside = {tuple(v) for v in scaled.vertices_mm.round(4) if min(abs(v[0]), abs(v[0] - 52.2)) < 1e-6}

    assert made.bounds_mm == pytest.approx(scaled.bounds_mm, abs=1e-6)
    assert outside <= {tuple(v) for v in made.vertices_mm.round(4)}


def test_a_bore_that_fits_is_left_alone(job: Job) -> None:
    """At 105 % the 5.3 mm bore takes the post as it prints: the mesh is only scaled."""
    ready = prepare(with_changes(job, percent=105.0), TODAY)
    result, _ = prepare_rebored(ready)

    assert [change.kept for change in result.changes] == ["it fits as it is"] * 2
    assert result.solids["a"].vertices_mm == pytest.approx(ready.solids["a"].vertices_mm * 1.05)


def test_the_window_widens(job: Job) -> None:
    """What was too tight at 80 % goes, and the window about the new size is named."""
    ready = prepare(with_changes(job, percent=80.0), TODAY)
    _, after = prepare_rebored(ready)
    now = window(after.bound.rules, 100.0).go.nearest

    assert check(ready.bound, 80.0).verdict is Verdict.GO_WITH_WORK
    assert now is not None
    assert now.low_percent is not None
    assert now.low_percent < 100.0


def test_a_plug_that_would_stand_out_is_refused(make_job: MakeJob) -> None:
    """A bore across a thin tube's wall has oblique mouths: it is left, and the sentence says what to do."""
    from tests.shapes import Manifold, cylinder, solid_of

    pipe = tube(30, 22, 40).manifold
    assert pipe is not None
    body = pipe - cylinder(9.0, 60, 48).translate((0, 0, -30)).rotate((90, 0, 0)).translate((0, 0, 20))
    text = PART.replace('"load"', '"shell"') + POST.replace("5.3", "9.0").replace("5.0", "5.0")
    result, _ = prepare_rebored(prepare(make_job(text, a=solid_of(body + Manifold())), TODAY))

    assert all("no plug holds there" in change.kept for change in result.changes)
    assert result.changes


def test_the_heron_is_rebored_down_to_its_other_limits(heron: Path) -> None:
    """At 100 % nothing about round bores is left to do; every part stays sound."""
    _, after = prepare_rebored(prepare(with_changes(read_job(heron), percent=100.0), TODAY))
    left = {f.rule for f in check(after.bound, 100.0).findings if f.verdict is not Verdict.GO}

    assert not {rule for rule in left if rule.startswith("bore.")}
    assert all(solid.sound and np.isfinite(solid.volume_mm3) for solid in after.solids.values())
    assert math.isfinite(after.sizing.percent)


def test_seats_slots_channels_and_bosses_are_put_back_too(make_job: MakeJob) -> None:
    """At 80 % a nut's pocket, a cord's bore, a strap's slot and the matter beside a pin go back to size; the rest stays."""
    from sample_parts.solids import slot_outline
    from tests.shapes import Manifold, cylinder, solid_of

    plate = Manifold.cube((80, 40, 8))
    plate -= cylinder(5.5 / math.cos(math.pi / 6), 9, 6).translate((12, 20, 4))  # an M3 nut, 5.5 mm across flats
    plate -= cylinder(3.4, 20, 48).translate((12, 20, -5))
    plate -= cylinder(2.0, 60, 32).rotate((90, 0, 0)).translate((30, 50, 4))
    plate -= Manifold.extrude(slot_outline(26, 3, 16), 30).translate((55, 20, -5))
    plate -= cylinder(4.2, 20, 48).translate((76.4, 20, -5))
    text = PART + (
        '[[hardware]]\nname = "nut"\nkind = "nut"\ndiameter_mm = 3.0\nbore_mm = 6.35\njoins = ["a"]\n'
        '[[hardware]]\nname = "screw"\nkind = "machine-screw"\ndiameter_mm = 3.0\nbore_mm = 3.4\njoins = ["a"]\n'
        '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = 4.0\nbore_mm = 4.2\nfit = "turning"\njoins = ["a"]\n'
        '[[cord]]\nname = "cord"\nkind = "braided"\npart = "a"\ndiameter_mm = 1.2\nchannel_mm = 2.0\npath_mm = 100.0\n'
        '[[strap]]\nname = "strap"\npart = "a"\nwebbing_mm = 20.0\nslot_mm = 26.0\naround_mm = 190.0\n'
    )
    before = prepare(with_changes(make_job(text, a=solid_of(plate)), percent=80.0), TODAY)
    result, after = prepare_rebored(before)
    changed = {change.kind: change.after_mm for change in result.changes if not change.kept}

    assert set(changed) == {"bore", "seat", "channel", "slot", "boss"} - ({"slot"} if 26 * 0.8 >= 21 else set())
    assert changed["seat"] * math.cos(math.pi / 6) == pytest.approx(5.5 + 0.1 + 0.2 + 0.05, abs=1e-6)
    assert changed["channel"] == pytest.approx((1.3 * 1.2 + 0.35 + 0.05) / math.cos(math.pi / N), abs=1e-6)
    assert changed["boss"] == pytest.approx(3 * 0.45 + 0.02, abs=1e-6)
    assert check(after.bound, 100.0).verdict is Verdict.GO
    assert survey(result.solids["a"]).sound


def test_a_channel_with_straight_mouths_is_cut_as_one(make_job: MakeJob) -> None:
    """An elbow at 85 %: the channel is widened along its whole line, the mouths are not cut a second time beside it.

    One body, as many openings as before, and no wall thinner than the block's own.
    """
    from sample_parts.solids import bent_tube
    from tests.shapes import Manifold, cylinder, solid_of

    body = Manifold.cube((26, 10, 26), True).translate((5, 0, 5)) - bent_tube(1.1, 10, 90, 32, 18)
    body -= cylinder(2.2, 30, 32).rotate((0, -90, 0)) + cylinder(2.2, 30, 32).translate((10, 0, 10))
    cord = '[[cord]]\nname = "tie"\npart = "a"\ndiameter_mm = 1.2\nchannel_mm = 2.2\npath_mm = 90.0\n'
    ready = prepare(with_changes(make_job(PART + cord, a=solid_of(body)), percent=85.0), TODAY)
    result, after = prepare_rebored(ready)
    before, found = ready.surveys["a"], survey(result.solids["a"])

    assert [change.kind for change in result.changes if not change.kept] == ["channel"]
    assert result.solids["a"].manifold is not None
    assert len(result.solids["a"].manifold.decompose()) == 1
    assert (found.handles_n, found.unrecognised_n) == (before.handles_n, 0)
    assert found.walls.least is not None
    assert before.walls.least is not None
    assert found.walls.least.thickness_mm > 0.9 * 0.85 * before.walls.least.thickness_mm
    assert [channel.diameter_mm for channel in found.channels] == pytest.approx([1.3 * 1.2 + 0.35 + 0.05], abs=0.03)
    assert check(after.bound, 100.0).verdict.passes


def test_a_bore_that_would_break_out_is_left(make_job: MakeJob) -> None:
    """At 70 % the web of 0.8 mm shrinks to 0.56 mm, and a bore 1.1 mm wider would open the side: it is left, and said."""
    text = PART + POST.replace("5.3", "4.9")
    ready = prepare(with_changes(make_job(text, a=bored_plate(60, 40, 8, [(3.25, 20, 4.9, 48)])), percent=70.0), TODAY)
    result, _ = prepare_rebored(ready)
    (change,) = (change for change in result.changes if change.kind == "bore")

    assert "break out" in change.kept
    assert change.after_mm == change.before_mm
    assert len(survey(result.solids["a"]).bores) == 1


def test_a_boss_leaves_a_bore_that_was_widened_before_it(make_job: MakeJob) -> None:
    """Two pins' bores 6.4 mm apart at 80 %: a boss for the one would stand in the other as wide as it is by then."""
    plate = bored_plate(60, 40, 8, [(3.9, 20, 5.3, 48), (11.9, 20, 5.3, 48)])
    result, after = prepare_rebored(prepare(with_changes(make_job(PART + POST, a=plate), percent=80.0), TODAY))
    found = survey(result.solids["a"])

    assert [change.kept for change in result.changes if change.kind == "boss" and "close" in change.kept]
    assert len(found.bores) == 2
    assert not found.possible_bores
    assert not check(after.bound, 100.0).verdict.passes

"""The window: by hand from the rule table, and equal to a bisection over check."""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import date
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from planner.finding import Verdict, worst
from planner.job import with_changes
from planner.output.words.size_words import reach_words
from planner.plan import Prepared, prepare
from planner.rules import check
from planner.size import part_window, window
from planner.size.window import Interval
from tests.conftest import MakeJob
from tests.shapes import Manifold, bored_plate, cuboid, cylinder, solid_of

TODAY = date(2026, 12, 1)
PART = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'
POST = '[[hardware]]\nname = "post"\nkind = "binding-post"\ndiameter_mm = 5.0\nbore_mm = 5.3\nfit = "turning"\njoins = ["a"]\n'
N = 48
INSCRIBED = 5.3 * math.cos(math.pi / N)


def _ends(ready: Prepared) -> tuple[float | None, float | None, float | None, float | None]:
    """Return the ends of go and of workable that lie nearest to the job's size."""
    found = window(ready.bound.rules, ready.sizing.percent)
    go, work = found.go.nearest, found.workable.nearest
    return (
        go.low_percent if go else None,
        go.high_percent if go else None,
        work.low_percent if work else None,
        work.high_percent if work else None,
    )


def test_a_bore_gives_the_window_that_the_table_gives_by_hand(make_job: MakeJob) -> None:
    """Turning post of 5.0 in 5.3: go from (5.2 + u)/i to (5.6 + u)/i; drillable down to the edge; bushed above."""
    ready = prepare(make_job(PART + POST, a=bored_plate(60, 40, 8, [(20, 20, 5.3, N)])), TODAY)
    go_low, go_high, low, high = _ends(ready)
    u, edge = 0.20, 20 - 5.3 / 2

    assert go_low == pytest.approx(100 * (5.2 + u) / INSCRIBED, abs=0.02)
    assert go_high == pytest.approx(100 * (5.6 + u) / INSCRIBED, abs=0.02)
    # Below, drilling to 5.2 must leave 3 lines of 0.45: (1.35 + 2.6) / (edge + 2.65); the wall of 8 ends it later.
    assert low == pytest.approx(100 * max((1.35 + 2.6) / (edge + 2.65), 1.35 / 8), abs=0.05)
    # Above, the next post or a bush always finds matter enough: the bed ends it, 210/60 lengthwise (geometry).
    assert high == pytest.approx(100 * 210 / 60, abs=0.01)


def test_a_lying_bore_prints_smaller(make_job: MakeJob) -> None:
    """With its axis along the bed the undersize is 0.35 instead of 0.20."""
    lying = PART.replace("[0, 0, -1]", "[0, -1, 0]") + POST
    ready = prepare(make_job(lying, a=bored_plate(60, 40, 8, [(20, 20, 5.3, N)])), TODAY)

    assert _ends(ready)[0] == pytest.approx(100 * (5.2 + 0.35) / INSCRIBED, abs=0.02)


def test_a_blind_bore_is_drilled_to_its_depth(make_job: MakeJob) -> None:
    """Blind as well as through, drilling to 5.2 ends the window where it leaves less than 3 lines, or the floor does.

    The bore is 5 deep in a plate of 8: its floor of 3 mm holds 6 layers of 0.2 mm down to 1.2 / 3 = 40 %.
    """
    ready = prepare(
        make_job(
            PART + POST.replace("binding-post", "dowel-pin"), a=bored_plate(60, 40, 8, [(20, 20, 5.3, N)], deep=5)
        ),
        TODAY,
    )

    assert _ends(ready)[0] == pytest.approx(100 * 5.4 / INSCRIBED, abs=0.02)
    assert _ends(ready)[2] == pytest.approx(40.0, abs=0.1)


def test_walls_gaps_slots_and_channels_end_the_window_as_by_hand(make_job: MakeJob) -> None:
    """Lying plate 4h/t, gap 0.3/c, slot (webbing + 1)/slot and the narrowest webbing (15), channel (1.3 d + u)/i."""
    text = (
        PART.replace('"load"', '"shell"')
        + '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "cover"\npose = [0, 0, -1]\n'
        + '[[gap]]\nbetween = ["a", "b"]\ndrawn_mm = 0.40\n'
        + '[[strap]]\nname = "s"\npart = "a"\nwebbing_mm = 25.0\nslot_mm = 26.0\n'
        + '[[cord]]\nname = "c"\npart = "b"\ndiameter_mm = 1.0\nchannel_mm = 2.0\n'
    )
    slotted = Manifold.cube((50, 30, 1.2)) - Manifold.cube((26, 3, 4)).translate((12, 13, -1))
    drilled = Manifold.cube((30, 20, 10)) - cylinder(2.0, 60, 64).rotate((0, 90, 0)).translate((-10, 10, 5))
    ready = prepare(make_job(text, a=solid_of(slotted), b=solid_of(drilled)), TODAY)

    def low(rule: str) -> tuple[float | None, float | None]:
        rules = [each for each in ready.bound.rules if each.rule == rule]
        found = window(rules, 100.0)
        go, work = found.go.intervals, found.workable.intervals
        return go[0].low_percent, work[0].low_percent

    assert low("wall.thin")[0] == pytest.approx(100 * 0.8 / 1.2, abs=0.01)
    assert low("gap.tight")[0] == pytest.approx(75.0, abs=0.02)  # 5e-5 mm are no difference
    assert low("slot.tight") == pytest.approx((100.0, 100 * 16 / 26), abs=0.01)
    assert low("channel.tight")[0] == pytest.approx(100 * (1.3 + 0.35) / (2.0 * math.cos(math.pi / 64)), abs=0.01)


def test_the_bed_ends_the_window(make_job: MakeJob) -> None:
    """A plate of 200 x 10 fits 210 x 210 turned by 45 degrees: s = 210 sqrt(2) / (200 + 10) (geometry)."""
    ready = prepare(make_job(PART, a=cuboid(200, 10, 6)), TODAY)
    found = window(ready.bound.rules, 100.0).workable.nearest

    assert found is not None
    assert found.high_percent == pytest.approx(100 * 210 * math.sqrt(2) / 210, abs=0.01)
    assert found.high_cause is not None
    assert found.high_cause.rule == "bed.over"


def test_an_empty_window_is_null_with_its_causes(make_job: MakeJob) -> None:
    """A bore that nothing claims on a load part holds at every size: unknown until it is named, and then up to 350 %."""
    ready = prepare(make_job(PART, a=bored_plate(60, 40, 8, [(20, 20, 5.3, N)])), TODAY)
    found = window(ready.bound.rules, 100.0)

    assert found.workable.nearest is None
    assert {cause.rule for cause in found.workable.causes} == {"bore.unclaimed"}
    assert {cause.rule for cause in found.workable.until} == {"bore.unclaimed"}
    assert [i.high_percent for i in found.workable.if_answered] == [pytest.approx(100 * 210 / 60, abs=0.01)]
    assert reach_words(found.workable).startswith("unknown until answered; then ")


def test_where_only_answers_are_missing_beyond_a_size_that_fails_they_are_asked_for(make_job: MakeJob) -> None:
    """At 50 % a wall of 1.5 mm fails; from 90 % on nothing but the bore that nothing claims stands against it."""
    plate = solid_of(Manifold.cube((60, 40, 1.5)) - cylinder(5.3, 10, N).translate((20, 20, -1)))
    found = window(prepare(make_job(PART, a=plate), TODAY).bound.rules, 50.0)
    (later,) = found.workable.if_answered

    assert {f.rule for f in found.workable.causes if f.verdict is Verdict.NO_GO} == {"wall.thin"}
    assert {f.rule for f in found.workable.until} == {"bore.unclaimed"}
    assert 50.0 < (later.low_percent or 0.0) < 100.0
    assert reach_words(found.workable).startswith("unknown until answered; then ")


def test_a_no_go_at_every_size_is_no_size_and_no_question(make_job: MakeJob) -> None:
    """A seat of 4 mm for an M3 nut, 5.5 across flats (ISO 4032), on a part that stays at 100 %, fits at no size."""
    text = PART.replace("pose", "scale = 100.0\npose") + (
        '[[hardware]]\nname="n"\nkind="nut"\ndiameter_mm=3.0\nbore_mm=4.62\njoins=["a"]\n'
    )
    body = Manifold.cube((20, 20, 10), True) - cylinder(4.0 / math.cos(math.pi / 6), 6, 6).translate((0, 0, 2))
    found = window(prepare(make_job(text, a=solid_of(body)), TODAY).bound.rules, 100.0)

    assert (found.workable.intervals, found.workable.until) == ((), ())
    assert reach_words(found.workable) == "no size"


MEASURED = (
    '[size]\n{size}[[size.measure]]\nname = "cuff"\nkind = "width"\nrecipient_mm = 106.5\ndevice_mm = 100.0\n'
    '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
)


@pytest.mark.parametrize("size", ["", "percent = 106.5\n", "percent = 112.0\n", "percent = 175.0\n"])
def test_where_it_works_and_whom_it_fits_are_two_things(make_job: MakeJob, size: str) -> None:
    """A person who needs 106.5 % is fitted from 106.5 / 1.05 to 106.5 · 1.05, whatever the job states; the bed ends 350 %."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n' + MEASURED.format(size=size)
    ready = prepare(make_job(text, a=cuboid(60, 40, 8)), TODAY)
    found = window(ready.bound.rules, ready.sizing.percent)

    assert found.person is not None
    (fits,), (works,) = found.person.intervals, found.workable.intervals
    assert (fits.low_percent, fits.high_percent) == pytest.approx((101.4286, 111.825), abs=1e-3)
    assert works.high_percent == pytest.approx(350.0)
    assert found.passes.intervals[0].high_percent == pytest.approx(111.825)


@pytest.mark.parametrize(("percent", "verdict"), [(106.5, Verdict.GO), (111.8, Verdict.GO), (112.0, Verdict.HOLD)])
def test_an_option_and_a_job_are_judged_by_one_rule(make_job: MakeJob, percent: float, verdict: Verdict) -> None:
    """What a job states and what is only tried get the same answer: 112 is 5.2 % off 106.5, 111.8 is 4.98 %."""
    head = '[job]\nname = "x"\nmaterial = "petg"\n'
    stated = prepare(make_job(head + MEASURED.format(size=f"percent = {percent}\n"), a=cuboid(60, 40, 8)), TODAY)
    tried = prepare(
        with_changes(make_job(head + MEASURED.format(size=""), a=cuboid(60, 40, 8)), percent=percent), TODAY
    )

    for ready in (stated, tried):
        found = next(f for f in check(ready.bound, percent).findings if f.rule == "size.disagree")
        assert found.verdict is verdict


def test_a_window_without_measures_speaks_of_no_person(make_job: MakeJob) -> None:
    """Nothing measured: where it fits a person is null, and where it works is all there is to pass."""
    ready = prepare(make_job(PART, a=cuboid(60, 40, 8)), TODAY)
    found = window(ready.bound.rules, 100.0)

    assert found.person is None
    assert found.passes == found.workable


@settings(
    max_examples=12,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(
    bore=st.floats(2.4, 9.0),
    hardware=st.floats(2.0, 8.0),
    edge=st.floats(1.0, 8.0),
    thick=st.floats(0.6, 12.0),
    fit=st.sampled_from(["turning", "sliding", "held"]),
    kind=st.sampled_from(["binding-post", "machine-screw", "dowel-pin"]),
)
@example(
    bore=8.233923492813725, hardware=5.1427186631924195, edge=1.6875, thick=2.0, fit="turning", kind="binding-post"
)
@example(bore=7.2, hardware=2.0, edge=1.058, thick=2.0, fit="turning", kind="binding-post")  # 0.2 points wide
def test_the_window_equals_a_bisection_over_check(
    make_job: MakeJob, bore: float, hardware: float, edge: float, thick: float, fit: str, kind: str
) -> None:
    """On random jobs, split windows included, every end equals an independent bisection within 0.01 points.

    The bisection walks in steps of 0.2 % over what the rules answer; what ``check`` answers is the same beside every
    end and at 60 sizes over the whole range.
    """
    text = PART + (
        f'[[hardware]]\nname = "h"\nkind = "{kind}"\ndiameter_mm = {hardware}\nbore_mm = {bore}\n'
        f'fit = "{fit}"\njoins = ["a"]\n'
    )
    ready = prepare(make_job(text, a=bored_plate(50, 40, thick, [(bore / 2 + edge, 20, bore, 32)])), TODAY)
    found = window(ready.bound.rules, 100.0)
    verdict_at = cache(lambda percent: worst([rule.at(percent / 100.0) for rule in ready.bound.rules]))
    beside = [10.0 * 1.077**n for n in range(60)]
    for reach, passes in ((found.go, _is_go), (found.workable, _passes)):
        ends = [e for i in reach.intervals for e in (i.low_percent, i.high_percent) if e is not None and 10 < e < 900]
        narrow = [(low + high) / 2 for low, high in pairwise(sorted(ends))]  # inside every span, and between them
        assert sorted(ends) == pytest.approx(_bisected(verdict_at, passes, narrow), abs=0.01)
        beside += [end + by for end in ends for by in (-0.01, 0.01)] + narrow
    assert [check(ready.bound, percent).verdict for percent in beside] == [verdict_at(percent) for percent in beside]


def _is_go(verdict: Verdict) -> bool:
    return verdict is Verdict.GO


def _passes(verdict: Verdict) -> bool:
    return verdict.passes


def _bisected(
    verdict_at: Callable[[float], Verdict], passes: Callable[[Verdict], bool], narrow: list[float]
) -> list[float]:
    """Return every change of the answer between 10 and 900 %, by a fine walk and bisection.

    ``narrow`` are sizes to step on as well: a span may be narrower than a step.
    """
    walk = [10.0 * 1.002**n for n in range(2253)]
    walk = sorted({size for size in (*walk, *narrow) if 10.0 <= size < 900.0})
    ends: list[float] = []
    for a, b in pairwise(walk):
        before = passes(verdict_at(a))
        if passes(verdict_at(b)) == before:
            continue
        low, high = a, b
        while high - low > 0.002:
            middle = (low + high) / 2
            low, high = (middle, high) if passes(verdict_at(middle)) == before else (low, middle)
        ends.append(high)
    return ends


def test_the_window_of_a_part_is_its_own(make_job: MakeJob) -> None:
    """A part with a scale of its own is not ended by the job's scale."""
    text = PART + '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "cover"\nscale = 100.0\n'
    ready = prepare(make_job(text, a=cuboid(40, 30, 6), b=cuboid(20, 20, 5)), TODAY)
    found = part_window(ready.bound.rules, 100.0, "b").workable

    assert found.nearest is not None
    assert (found.nearest.low_percent, found.nearest.high_percent) == (None, None)


def test_drilling_splits_the_window(make_job: MakeJob) -> None:
    """A bore near an edge: fits as printed, is too tight to drill below, and large again it can be bushed."""
    post = POST.replace("5.0", "6.5").replace("5.3", "8.0")
    ready = prepare(make_job(PART + post, a=bored_plate(50, 40, 2, [(5.5, 20, 8.0, 32)])), TODAY)

    assert len(window(ready.bound.rules, 100.0).workable.intervals) == 3


@pytest.mark.parametrize(
    ("percent", "inside"), [(89.9, False), (90.0, True), (100.0, True), (110.0, True), (110.1, False)]
)
def test_an_interval_holds_its_ends(percent: float, inside: bool) -> None:
    """From 90 to 110 %, both ends included; where nothing bounds an end, every size lies inside it."""
    both = Interval(low_percent=90.0, high_percent=110.0, low_cause=None, high_cause=None)

    assert both.holds(percent) is inside
    assert Interval(low_percent=None, high_percent=110.0, low_cause=None, high_cause=None).holds(percent) is (
        percent <= 110.0
    )
    assert Interval(low_percent=90.0, high_percent=None, low_cause=None, high_cause=None).holds(percent) is (
        percent >= 90.0
    )

"""Stress at joints, as a share of the material's strength: closed forms by hand, and words that promise nothing."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date

import pytest

from planner.finding import Finding, Verdict
from planner.job import Job, with_changes
from planner.plan import prepare
from planner.rules import GoShare, Rule, check
from planner.rules.fit.strength.bore_force import BoreForce
from planner.rules.fit.strength.joint_strength import BoreStress
from planner.sourced import stated
from tests.conftest import MakeJob
from tests.mechanism.cord.path.known_parts import bore as known_bore
from tests.shapes import bored_plate, cylinder, solid_of

TODAY = date(2026, 12, 1)
PART = '[job]\nname = "x"\nmaterial = "petg"\n[use]\nload_n = 100.0\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'
PIN = (
    '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = 5.5\nfit = "turning"\njoins = ["a"]\n'
)


def _found(job: Job, percent: float, rule: str) -> Finding:
    """Return the one finding of a rule at a size."""
    ready = prepare(with_changes(job, percent=percent), TODAY)
    (finding,) = [f for f in check(ready.bound, percent).findings if f.rule == rule]
    return finding


def test_a_bore_near_an_edge_is_judged_by_its_tear_out(make_job: MakeJob) -> None:
    """Edge 3 mm from a 5.5 bore in an 8 mm plate, 100 N: 100 / (2 x 3 x 8) x sqrt 3 of PETG's low 40 MPa along the layers."""
    job = make_job(PART + PIN, a=bored_plate(60, 40, 8, [(5.75, 20, 5.5, 64)]))
    found = _found(job, 100.0, "strength.bore")

    assert found.measured == pytest.approx(100 * 100 / (2 * 3 * 8) * math.sqrt(3) / 40, rel=2e-3)
    assert found.verdict is Verdict.GO
    assert "tear-out" in found.why


def test_hardware_that_keeps_its_size_bears_less_badly_than_the_square(make_job: MakeJob) -> None:
    """In the middle of a plate bearing governs: the pin stays 5 mm, so at half size it is twice, not four times."""
    job = make_job(PART + PIN, a=bored_plate(60, 40, 8, [(30, 20, 5.5, 64)]))
    whole, half = _found(job, 100.0, "strength.bore"), _found(job, 50.0, "strength.bore")

    assert whole.measured is not None
    assert half.measured == pytest.approx(2 * whole.measured, rel=1e-6)


def test_a_lying_bore_is_judged_across_the_layers(make_job: MakeJob) -> None:
    """The same bore with its axis along the bed is compared with the low 25 MPa between layers."""
    job = make_job((PART + PIN).replace("[0, 0, -1]", "[0, -1, 0]"), a=bored_plate(60, 40, 8, [(30, 20, 5.5, 64)]))

    assert "25 MPa across the layers" in _found(job, 100.0, "strength.bore").why


def test_a_printed_pin_may_break_and_the_words_promise_nothing(make_job: MakeJob) -> None:
    """A 4 mm pin of 40 mm under 100 N: 32 x 500 / (pi 64) = 79.6 MPa bending, over half of the low 40: a hold."""
    text = PART.replace('"load"', '"pin"').replace("[0, 0, -1]", "[0, -1, 0]")
    job = make_job(text, a=solid_of(cylinder(4.0, 40, 64)))
    found = _found(job, 100.0, "strength.pin")

    assert found.measured == pytest.approx(100 * 32 * 500 / (math.pi * 64) / 40, rel=0.01)
    assert found.verdict is Verdict.HOLD
    assert "This is a screening number" in found.caution


@pytest.mark.parametrize(("load_n", "beside_mm"), [(3000.0, 3.0), (600.0, 0.4)])
def test_over_half_of_the_low_strength_a_bore_is_a_hold_and_turns_there(
    make_job: MakeJob, load_n: float, beside_mm: float
) -> None:
    """The contract: up to half is go; a joint that nobody said takes the whole load is a hold, and never a no-go."""
    text = (PART + PIN).replace("load_n = 100.0", f"load_n = {load_n}")
    job = make_job(text, a=bored_plate(60, 40, 8, [(beside_mm + 2.75, 20, 5.5, 64)]))
    (rule,) = [
        one for one in prepare(with_changes(job, percent=100.0), TODAY).bound.rules if one.rule == "strength.bore"
    ]
    assert isinstance(rule, BoreStress)
    turn = max(rule.turns())

    assert rule.at(0.999 * turn).verdict is Verdict.HOLD
    assert rule.at(1.001 * turn).verdict is Verdict.GO
    assert "proof load" in rule.at(0.999 * turn).remedy
    assert rule.at(0.2 * turn).verdict is Verdict.HOLD


def test_a_grip_is_what_bores_carry_where_no_load_is_stated(make_job: MakeJob) -> None:
    """As the key's text promises: the same stresses under grip_n alone."""
    plate = bored_plate(60, 40, 8, [(30, 20, 5.5, 64)])
    jobs = [make_job((PART + PIN).replace("load_n", key), a=plate) for key in ("load_n", "grip_n")]
    by_load, by_grip = (_found(job, 100.0, "strength.bore") for job in jobs)

    assert by_load.measured == by_grip.measured


def test_without_a_load_only_the_ratio_is_judged(make_job: MakeJob) -> None:
    """No load_n: no stress in MPa, but 1/s2 against its limit."""
    job = make_job((PART + PIN).replace("load_n = 100.0\n", ""), a=bored_plate(60, 40, 8, [(30, 20, 5.5, 64)]))
    rules = {f.rule for f in check(prepare(job, TODAY).bound, 100.0).findings}

    assert "strength.ratio" in rules
    assert not {"strength.bore", "strength.pin"} & rules


@pytest.mark.parametrize("rule", ["strength.bore", "strength.pin", "strength.beam"])
@pytest.mark.parametrize(
    ("stated", "limit"), [("hottest_c = 70.0", 1000.0 / 57.0), ("load_h = 1000.0", 15.0), ("loads_n = 1000000.0", 10.0)]
)
def test_heat_time_and_repetition_that_are_stated_end_a_go_of_every_rule_of_strength(
    make_job: MakeJob, rule: str, stated: str, limit: float
) -> None:
    """By hand: 30 and 20 % are left after 1000 h and a million loads, half of it is go; at 70 °C all of what is left."""
    plate = bored_plate(60, 40, 8, [(30, 20, 5.5, 64)])
    text, solid = PART + PIN, plate
    if rule == "strength.pin":
        text, solid = PART.replace('"load"', '"pin"').replace("[0, 0, -1]", "[0, -1, 0]"), solid_of(cylinder(8, 40, 64))
    if rule == "strength.beam":
        text = text.replace('duty = "load"', 'duty = "load"\nload_at_mm = [55, 20, 8]\nload_dir = [0, 0, -1]')
    cold = _loaded(make_job(text, a=solid), rule)
    warm = _loaded(make_job(text.replace("load_n = 100.0", f"load_n = 100.0\n{stated}"), a=solid), rule)
    most = max(one for one in warm.turns() if warm.at(1.001 * one).verdict is Verdict.GO)
    under, over = warm.at(1.001 * most), warm.at(0.999 * most)

    assert over.verdict is Verdict.HOLD
    assert cold.at(0.999 * most).verdict is Verdict.GO
    assert under.limit == pytest.approx(limit)
    assert under.measured == pytest.approx(limit, rel=0.01)
    assert "so less is go" in over.why
    assert "as hot and as long" in over.question


def _loaded(job: Job, rule: str) -> Rule:
    """Return the one rule of a name, under the force that is known alone."""
    (one,) = [each for each in prepare(job, TODAY).bound.rules if each.rule == rule]
    return replace(one, feared=None) if isinstance(one, BoreStress) else one


def _bound(known_n: float, feared_n: float) -> BoreStress:
    """Return a 5 mm pin in a bore 5 mm deep far from any edge, under a known force and one that nobody ruled out."""
    bore = replace(known_bore(1, 0.0, 0.0, 2.5, 5.0, 5.0), edge_wall_mm=None)
    return BoreStress(
        part="jaw",
        feature="b1",
        hardware="pin",
        bore=bore,
        force=BoreForce(force_n=known_n, said="where 15 N are held at the tip"),
        feared=BoreForce(force_n=feared_n, said="if it is a lever", asks="What holds jaw?", caution="it may be longer"),
        hardware_mm=5.0,
        need_mm=5.0,
        strength_mpa=stated(40.0),
        along=True,
        go=GoShare(share=0.5, daily_share=0.5, left_said="", source="here"),
    )


def test_a_bore_is_judged_by_the_force_on_it_and_says_where_that_comes_from() -> None:
    """Bearing by hand: 75 / (5 x 5) = 3 MPa, 7.5 % of 40."""
    found = _bound(75.0, 100.0).at(1.0)

    assert found.measured == pytest.approx(7.5)
    assert found.why.startswith("75 N on pin in b1 where 15 N are held at the tip cause 3.0 MPa (bearing)")
    assert (found.verdict, found.caution) == (Verdict.GO, "it may be longer")


def test_a_force_that_nobody_ruled_out_is_a_hold_with_its_question_from_half_of_the_strength() -> None:
    """600 N over 25 mm2 is 24 of 40 MPa: a hold, though 75 N are known; it turns where bearing is half, at 1.2."""
    rule = _bound(75.0, 600.0)

    assert rule.at(1.0).verdict is Verdict.HOLD
    assert rule.at(1.0).question == "What holds jaw?"
    assert "it may take 600 N if it is a lever, which is 60 %" in rule.at(1.0).why
    assert max(rule.turns()) == pytest.approx(1.2)
    assert rule.at(1.201).verdict is Verdict.GO


def test_a_bore_whose_force_nothing_bounds_is_never_go() -> None:
    """Past a dead point 75 N bear, and are a hold with its question: no size makes it go, and no turn of it counts."""
    bore = _bound(75.0, 100.0)
    endless = BoreForce(force_n=15.0, said="at 30° it is at its dead point", asks="What stops it?", endless=True)
    locked = replace(bore, feared=endless)

    assert [locked.at(s).verdict for s in (1.0, 2.5)] == [Verdict.HOLD] * 2
    assert locked.at(1.0).question == "What stops it?"
    assert locked.at(1.0).why.endswith("but at 30° it is at its dead point")
    assert locked.turns() == replace(bore, feared=None).turns()

"""The pull on a cord, worked out by hand; an elastic carries nothing of the load."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from planner.finding import Verdict
from planner.job import Cord, Use, read_limits
from planner.rules.fit.cord_force import cord_findings

LIMITS = read_limits()
PULL = Cord(name="pull cord", part="deck", diameter_mm=1.0, lever=1.0, bends_deg=90.0, friction=0.2)
ELASTIC = Cord(name="return elastic", part="guide", diameter_mm=1.0, kind="elastic", bends_deg=90.0)
KNOWN = replace(ELASTIC, force_n=6.0)


def test_a_return_elastic_carries_no_load() -> None:
    """Once the elastic was said to be pulled with 55 N; it opens the grip, and its own 6 N come on top for the hand."""
    use = Use(load_n=40.0, pull_n=500.0)
    pull, elastic = cord_findings([PULL, replace(ELASTIC, force_n=6.0)], use, LIMITS)

    assert "carries no load" in elastic.why
    assert elastic.measured == 6.0
    assert pull.measured == pytest.approx(46.0 * math.exp(0.2 * math.pi / 2))  # 63.0 N, Euler and Eytelwein
    assert pull.verdict is Verdict.GO  # 20 % of 500 N is 100 N


def test_an_elastic_that_nobody_measured_is_asked_for() -> None:
    """Without its force the pull is told to be more, with what is left for it: 0.2 · 300 - 40 e^(0.314) = 5 N."""
    pull, elastic = cord_findings([PULL, ELASTIC], Use(load_n=40.0, pull_n=300.0), LIMITS)

    assert "and more, by a return elastic" in pull.why
    assert pull.caution.startswith("5 N at the hand are left")
    assert "spring balance" in elastic.question


@pytest.mark.parametrize(("pull_n", "verdict"), [(273.0, Verdict.HOLD), (275.0, Verdict.GO)])
def test_a_pull_over_a_fifth_of_the_greatest_holds(pull_n: float, verdict: Verdict) -> None:
    """40 N over 90 degrees at 0.2 pull 54.77 N: a fifth of 273 N is 54.6, of 275 N 55.0; both print as they differ."""
    found = cord_findings([PULL], Use(load_n=40.0, pull_n=pull_n), LIMITS)[0]

    assert found.verdict is verdict
    assert "a pull of 54.8 N" in found.why


def test_the_grip_that_is_wanted_counts_before_the_load() -> None:
    """5 N of grip at a lever of 1 without bends pull 5 N, whatever the device carries; without it the load does."""
    cord = replace(PULL, lever=1.0, bends_deg=0.0)
    wanted = cord_findings([cord], Use(load_n=40.0, grip_n=5.0, pull_n=300.0), LIMITS)[0]
    carried = cord_findings([cord], Use(load_n=40.0, pull_n=300.0), LIMITS)[0]

    assert (wanted.measured, carried.measured) == (5.0, 40.0)


def test_what_a_pull_is_not_compared_with_is_named() -> None:
    """Without a load the load is missing, with one the largest pull that somebody measured."""
    no_load, no_pull = (cord_findings([PULL], use, LIMITS)[0] for use in (Use(pull_n=300.0), Use(load_n=40.0)))

    assert no_load.why.endswith("[use] gives no load_n")
    assert no_pull.why.endswith("[use] gives no pull_n, the largest pull measured")


def test_an_elastic_is_asked_about_only_where_its_force_decides() -> None:
    """Where no pull is stated nothing is compared with it, and what somebody measured is not asked again."""
    stated, nothing = Use(load_n=40.0, pull_n=300.0), Use(load_n=40.0)
    asked = [cord_findings([one], use, LIMITS)[0].question for one in (ELASTIC, KNOWN) for use in (stated, nothing)]

    assert [bool(question) for question in asked] == [True, False, False, False]


def test_a_pull_that_is_just_the_share_is_a_go() -> None:
    """40 N without bends are 20 % of 200 N to the last digit: a limit that is reached is not passed."""
    cord = replace(PULL, bends_deg=0.0)

    assert cord_findings([cord], Use(load_n=40.0, pull_n=200.0), LIMITS)[0].verdict is Verdict.GO
    assert cord_findings([cord], Use(load_n=40.0, pull_n=199.9), LIMITS)[0].verdict is Verdict.HOLD


def test_the_friction_of_the_limits_serves_where_a_cord_states_none() -> None:
    """Euler and Eytelwein over 90 degrees, by the shipped friction; the source says whose it is."""
    usual = LIMITS.cord_friction.value
    stated, silent = (
        cord_findings([replace(PULL, friction=friction)], Use(load_n=40.0, pull_n=900.0), LIMITS)[0]
        for friction in (0.3, None)
    )

    assert stated.measured == pytest.approx(40.0 * math.exp(0.3 * math.pi / 2))
    assert silent.measured == pytest.approx(40.0 * math.exp(usual * math.pi / 2))
    assert stated.source.endswith("friction: job")
    assert silent.source.endswith(f"friction: {LIMITS.cord_friction.source}")

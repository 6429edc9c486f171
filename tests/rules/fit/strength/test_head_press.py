"""What a screw's head presses is judged by the ring under it and by the plug that it would punch out, by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from planner.finding import Verdict
from planner.rules import BoreForce
from planner.rules.fit.strength.head_press import HeadPress
from planner.rules.fit.strength.lasting_strength import GoShare
from tests.mechanism.cord.path.known_parts import bore

RULE = HeadPress(
    part="lid",
    hardware="screw",
    bore=bore(1, 0.0, 0.0, 2.5, 4.4, 5.0),
    pull=BoreForce(force_n=0.0, pull_n=100.0, said="under a load"),
    feared=None,
    wide_mm=7.0,
    need_mm=4.2,
    strength_mpa=25.0,
    shear_mpa=15.0,
    strength_source="by hand",
    go=GoShare(share=0.5, daily_share=0.5, left_said="", source="by hand"),
)
RING_MM2 = math.pi / 4.0 * (7.0**2 - 4.4**2)


def test_a_head_presses_the_ring_under_it() -> None:
    """100 N over 23.3 mm² are 4.3 MPa, 17 % of 25 MPa; half of that strength, 291 N, is go and more a hold."""
    found = RULE.at(1.0)
    more = replace(RULE, pull=BoreForce(force_n=0.0, pull_n=292.0, said="under a load")).at(1.0)

    assert found.verdict is Verdict.GO
    assert found.measured == pytest.approx(100.0 * 100.0 / RING_MM2 / 25.0)
    assert "press 4.3 MPa on the ring under its head, 7 mm wide" in found.why
    assert more.verdict is Verdict.HOLD
    assert "test the part with load" in more.caution


def test_a_thin_part_is_judged_by_the_plug_that_a_head_punches_out() -> None:
    """A plate of 1 mm: 100 N over pi 7 mm² are 4.5 MPa in shear, 30 % of 15 MPa (textbook)."""
    found = replace(RULE, bore=bore(1, 0.0, 0.0, 0.5, 4.4, 1.0)).at(1.0)

    assert found.measured == pytest.approx(100.0 * 100.0 / (math.pi * 7.0 * 1.0) / 15.0)
    assert "shear its plug, 1.0 mm deep" in found.why


def test_what_nobody_has_ruled_out_is_asked() -> None:
    """400 N that may be make a hold of 100 N that are known, with the question that decides."""
    found = replace(RULE, feared=BoreForce(force_n=0.0, pull_n=400.0, said="if it bends", asks="Does it bend?")).at(1.0)

    assert (found.verdict, found.question) == (Verdict.HOLD, "Does it bend?")
    assert found.why.startswith("400 N may pull")


def test_a_bore_as_wide_as_the_head_holds_nothing() -> None:
    """At 1.6 times its size the bore is 7.04 mm wide, and the head, as bought, 7 mm."""
    found = RULE.at(1.6)

    assert (found.verdict, found.measured) == (Verdict.HOLD, None)
    assert "nothing holds it" in found.why


@pytest.mark.parametrize("pull_n", [100.0, 292.0, 700.0])
def test_the_verdict_turns_where_the_rule_says(pull_n: float) -> None:
    """Between its turns nothing changes: a scan of 400 sizes."""
    rule = replace(RULE, pull=BoreForce(force_n=0.0, pull_n=pull_n, said="under a load"))
    sizes = [0.4 + 2.1 * k / 400.0 for k in range(401)]
    for low, high in pairwise(sizes):
        if rule.at(low).verdict is not rule.at(high).verdict:
            assert any(low <= turn <= high for turn in rule.turns())

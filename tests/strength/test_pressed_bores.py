"""What the Heron's bores take is more than its load where a lever or a cord makes it so, and the rules judge by that."""

from __future__ import annotations

from dataclasses import replace

from planner.finding import Verdict
from planner.plan import Prepared
from planner.strength import pressed_bores


def test_the_jaws_post_is_judged_by_what_its_lever_puts_on_it(heron_ready: Prepared) -> None:
    """Some 100 N on the posts of jaw and deck where 15 N are held at the tip, and still go; the axles take two pulls."""
    found = {(one.part, one.feature): one.at(1.065) for one in heron_ready.bound.rules if one.rule == "strength.bore"}
    jaw = found["jaw", "b1"]

    assert " N on pivot post in b1 where 15 N are held at the tip cause " in jaw.why
    assert 90.0 < float(jaw.why.split()[0]) < 110.0
    assert found["deck", "b8"].why.split()[0] == jaw.why.split()[0]
    assert "through pulley under 44 N of pull at the hand" in found["bracket-left", "b1"].why
    assert {one.verdict for one in found.values()} == {Verdict.GO}


def test_without_a_load_or_screened_parts_nothing_is_known(heron_ready: Prepared) -> None:
    """The rules of fit then judge nothing, or the stated load alone."""
    job = replace(heron_ready.job, use=replace(heron_ready.job.use, load_n=None))

    assert pressed_bores(job, heron_ready.screens, (), heron_ready.movement, {}) == {}
    assert pressed_bores(heron_ready.job, (), (), heron_ready.movement, {}) == {}

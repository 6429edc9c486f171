"""What the Heron's bores take is more than its load where a lever or a cord makes it so, and the rules judge by that."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

from planner.finding import Verdict
from planner.plan import Prepared
from planner.rules import PIN, BoreForce, Forces
from planner.strength import pressed_bores
from planner.strength.pressed_bores import _with_endless
from planner.strength.screened import Screened


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


def test_bores_of_what_nothing_bounds_are_told_so() -> None:
    """A jaw past a dead point, a link of an untold loop and the printed pin in it; not a cover beside them."""
    known = BoreForce(force_n=41.0, said="where 15 N are held at the tip")
    forces: Forces = {"jaw": {"b1": (known,)}, "link": {"b1": ()}, "peg": {PIN: (known,)}, "cover": {"b1": (known,)}}
    claim: Any = SimpleNamespace(part="link", hardware=SimpleNamespace(printed="peg"))
    screens = [
        Screened(part="jaw", known=True, locks="at 30° it is at its dead point"),
        Screened(part="link", known=False, untold="no cord is known to drive it"),
        Screened(part="cover", known=True),
    ]

    found = _with_endless(forces, screens, [claim], 15.0)
    told = {
        part: [one.said for every in bores.values() for one in every if one.endless] for part, bores in found.items()
    }

    assert told == {
        "jaw": ["at 30° it is at its dead point"],
        "link": ["no cord is known to drive it"],
        "peg": ["no cord is known to drive it"],
        "cover": [],
    }

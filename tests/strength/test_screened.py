"""Every loaded part of a job gets a figure, or a hold that says what to state; the Heron's jaw among them."""

from __future__ import annotations

from dataclasses import replace
from importlib import import_module
from types import SimpleNamespace
from typing import Any

import pytest

from planner.assembly import claims_of
from planner.finding import Verdict
from planner.plan import Prepared
from planner.rules import chosen_material
from planner.strength import LOADED, screened, strength_rules
from planner.strength.screened import Screened, _bounded
from planner.strength.unscreened import Unscreened, unscreened

VERDICTS = {10.0: Verdict.GO, 20.0: Verdict.GO, 40.0: Verdict.HOLD, 200.0: Verdict.NO_GO}


@pytest.mark.parametrize("load_n", VERDICTS)
def test_the_jaw_breaks_at_200_n_and_not_at_10(heron_ready: Prepared, load_n: float) -> None:
    """At the job's size, by the load at its tip: go at 10 and 20 N, a hold at 40 N, no-go at 200 N.

    What a hand's pull does to it is left out: see the test of that.
    """
    parts = tuple(part if part.name == "jaw" else replace(part, duty="cover") for part in heron_ready.job.parts)
    job = replace(heron_ready.job, parts=parts, use=replace(heron_ready.job.use, load_n=load_n, pull_n=None))
    claims = claims_of(job, heron_ready.surveys).claims
    assert heron_ready.movement is not None
    moving = replace(heron_ready.movement, job=job, pulls={})
    found = screened(job, heron_ready.solids, heron_ready.surveys, claims, moving, heron_ready.downs)

    assert [rule.at(1.065).verdict for rule in strength_rules(job, found)] == [VERDICTS[load_n]]


def test_every_load_part_has_a_figure_at_every_size(heron_ready: Prepared) -> None:
    """The shell that carries what hangs at the jaws is one. From 50 to 200 %: a share, and a smaller one the larger the device is; a pin of its own scale keeps its own."""
    loaded = {part.name for part in heron_ready.job.parts if part.judged_duty in LOADED} | {"cuff"}

    assert {rule.part for rule in heron_ready.strength} == loaded
    for rule in heron_ready.strength:
        shares = [rule.at(s).measured or 0.0 for s in (0.5, 0.75, 1.0, 1.065, 1.5, 2.0)]
        assert min(shares) > 0.0
        assert shares[-1] < shares[0] or heron_ready.job.part(rule.part).scale_percent == 100.0


def test_without_a_load_or_a_material_nothing_is_screened(heron_ready: Prepared) -> None:
    """No figure out of nothing; the command then holds and says what to state."""
    job = replace(heron_ready.job, use=replace(heron_ready.job.use, load_n=None, grip_n=None))

    assert screened(job, heron_ready.solids, heron_ready.surveys, (), None, heron_ready.downs) == ()
    assert chosen_material(replace(job, material=None, materials=())) is None
    assert unscreened("jaw", Unscreened.NO_LOAD).verdict is Verdict.HOLD


def test_cords_are_screened_under_the_pull_that_can_be_kept_up(
    heron_ready: Prepared, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A fifth of 220 N at the hand, not the 1.2 N of grip that the job wants; the 2 N that hang there where no pull is measured."""
    # What the deck bears of them is not asked here: to cut it under other loads takes as long as 20 tests.
    deck = next(one.weakest for one in heron_ready.screens if one.part == "deck" and one.weakest)
    told = import_module("planner.strength.screened")
    monkeypatch.setattr(told, "weakest_ahead", lambda _: None)
    monkeypatch.setattr(told, "weakest", lambda *_: replace(deck, case_n=0))
    parts = tuple(part if part.name == "deck" else replace(part, duty="cover") for part in heron_ready.job.parts)
    said = {}
    for pull_n in (220.0, None):
        job = replace(heron_ready.job, parts=parts, use=replace(heron_ready.job.use, pull_n=pull_n))
        asked = replace(heron_ready.movement, job=job) if heron_ready.movement else None
        moving = asked if pull_n or asked is None else replace(asked, pulls={})  # its own pull is known already
        found = screened(
            job,
            heron_ready.solids,
            heron_ready.surveys,
            claims_of(job, heron_ready.surveys).claims,
            moving,
            heron_ready.downs,
        )
        said[pull_n] = [case.said for one in found if one.known for case in one.cases]

    assert any(one.startswith("44 N of pull at the hand") for one in said[220.0])
    assert not any("1.2 N of grip" in one for one in said[220.0])
    assert "2 N of grip at the tip" in said[None]
    assert not any("of pull at the hand" in one for one in said[None])


def test_past_a_dead_point_what_grips_and_every_link_is_told_so() -> None:
    """A coupler of a closed loop, and what is under the grip; not a cover, nor anything where no chain locks."""
    cord, moves = SimpleNamespace(name="pull", locks="at 30° it is at its dead point"), SimpleNamespace
    joints = [moves(name="a", parts=("crank", "coupler#2")), moves(name="b", parts=("base", "cover"))]
    movement: Any = moves(cords_at=lambda _: moves(cords=[cord]), mechanism=moves(loops=[("a",)], joints=joints))
    movement.untold_links = lambda _: {"coupler#2": "no cord is known to drive it"}
    grip: Any = moves(said="24 N of grip at the tip")
    judged = [
        Screened(part="jaw", known=True, cases=(grip,)),
        *(Screened(part=n, known=False) for n in ("coupler", "cover")),
    ]

    bounded = _bounded(judged, movement, (24.0, grip.said))
    told = [one.locks for one in bounded]

    assert [one.untold for one in bounded] == ["", "no cord is known to drive it", ""]
    assert told == ["pull: at 30° it is at its dead point"] * 2 + [""]
    cord.locks = ""
    assert {one.locks for one in _bounded(judged, movement, (24.0, grip.said))} == {""}

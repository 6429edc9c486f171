"""Several cords on one joint of the body: pulls added, the longest way had, and what cannot be known is asked."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planner.job import Cord, Drive, Equaliser
from planner.mechanism.cord_effects.pull_of_one_table import Kept
from planner.mechanism.cord_effects.pull_of_several_tables import Drawn, at_one_hand, body_of
from planner.mechanism.movement.move_records import CordMove

WRIST = Drive(joint="wrist", arm_mm=30.0, range_deg=(-10.0, 35.0))


def _share(share: float) -> Kept:
    """Return a grip in proportion to the share of the pull."""
    return (20.0, share, share, share, share)


def _drawn(name: str, pull: float, travel: float = 9.0, senses: dict[str, int] | None = None, **stated: Any) -> Drawn:
    """Return a cord on a joint of its own, with a pull from 1 below to 1 above the expected."""
    cord = Cord(name=name, part="palm", diameter_mm=1.0, drives=f"jaw {name}", **stated)
    move = CordMove(
        name=name, part="palm", joint=f"to {name}", travel_mm=travel, has_mm=23.6, pull_n=(pull - 1, pull, pull + 1)
    )
    return Drawn(cord=cord, move=move, senses=senses or {f"to {name}": 1}, grip_for=_share)


def test_one_wrist_draws_two_cords_and_their_pulls_add() -> None:
    """10 and 30 N are 40 N at the hand, also where only [drive] says what draws them; a quarter of what is kept up is A's."""
    for drive, drawn_from in ((WRIST, "wrist"), (WRIST, ""), (None, "")):
        one, two = at_one_hand(drive, [_drawn("A", 10.0, drawn_from=drawn_from), _drawn("B", 30.0)])
        assert one.pull_n == two.pull_n == (38.0, 40.0, 42.0)
        assert one.grip_for_n == _share(0.25)
        assert two.grip_for_n == _share(0.75)
        assert "A and B at once: their pulls add" in one.together
        assert one.asks_mm == 9.0


def test_cords_of_different_joints_of_the_body_are_asked_each_alone() -> None:
    """The elbow's cord is none of the wrist's."""
    one, two = at_one_hand(WRIST, [_drawn("A", 10.0), _drawn("B", 30.0, drawn_from="elbow")])

    assert (one.pull_n, two.pull_n) == ((9.0, 10.0, 11.0), (29.0, 30.0, 31.0))
    assert not one.together
    assert body_of(_drawn("B", 1.0, drawn_from="elbow").cord, WRIST) == "elbow"


def test_the_cord_with_the_shorter_way_is_tied_slacker() -> None:
    """9 and 14 mm: tied alike, the first ends 5 mm early and the wrist draws no more."""
    one, two = at_one_hand(WRIST, [_drawn("A", 10.0), _drawn("B", 30.0, 14.0)])

    assert "tie A 5.0 mm slacker than B" in one.together
    assert "slacker" not in two.together


@pytest.mark.parametrize(("kind", "pull", "asks"), [("pulley", 60.0, 11.5), ("knot", 40.0, 9.0)])
def test_an_equaliser_that_both_state_counts_between_them(kind: Equaliser, pull: float, asks: float) -> None:
    """Over a pulley both pull as the harder one, 2 x 30 N, and the hand draws the mean of 9 and 14 mm; a knot adds."""
    one, _ = at_one_hand(WRIST, [_drawn("A", 10.0, equaliser=kind), _drawn("B", 30.0, 14.0, equaliser=kind)])

    assert one.pull_n is not None
    assert one.pull_n[1] == pull
    assert one.asks_mm == asks


@pytest.mark.parametrize(("kind", "shares"), [("pulley", (0.5, 0.5)), ("bar", (0.5, 0.5)), ("knot", (0.25, 0.75))])
def test_a_pulley_gives_the_easier_finger_as_much_as_the_harder(kind: Equaliser, shares: tuple[float, float]) -> None:
    """One cord over a pulley has one pull at both ends (statics), and a bar pulled at its middle two; a knot does not."""
    both = at_one_hand(WRIST, [_drawn("A", 10.0, equaliser=kind), _drawn("B", 30.0, equaliser=kind)])

    assert tuple(one.grip_for_n for one in both) == tuple(_share(share) for share in shares)


def test_tied_fingers_all_stop_with_the_first() -> None:
    """Of 60 N at the hand 56 N go to the one that has touched where the other's elastic asks 4 N."""
    both = [replace(_drawn(name, 30.0, equaliser="knot"), hold_n=lambda: 4.0) for name in ("A", "B")]
    one, _ = at_one_hand(WRIST, both)

    assert "all stop when one touches: of 60 N at the hand, 56 N go to its cord" in one.together


def test_over_a_pulley_the_other_finger_goes_on() -> None:
    """Drawn with 60 N, a cord that has touched is pulled by no more than the 4 N that the other needs to go on."""
    both = [replace(_drawn(name, 30.0, equaliser="pulley"), hold_n=lambda: 4.0) for name in ("A", "B")]
    one, _ = at_one_hand(WRIST, both)

    assert "the other finger goes on closing when one touches" in one.together
    assert "neither cord is pulled by more than 4 N" in one.together


def test_two_cords_on_one_joint_of_the_device_help_each_other() -> None:
    """Each alone needs 10 or 30 N for the grip: together no more than the harder one, and no less than the easier."""
    senses = {"palm to jaw": 1}
    one, two = at_one_hand(WRIST, [_drawn("A", 10.0, senses=senses), _drawn("B", 30.0, senses=senses)])

    assert one.pull_n == two.pull_n == (9.0, 30.0, 31.0)
    assert "work on one joint" in one.together


def test_what_cannot_be_known_of_one_hand_is_asked() -> None:
    """Cords against each other, unlike equalisers, and a cord whose own pull is not known: no sum is told."""
    against = [_drawn("A", 10.0, senses={"palm to jaw": 1}), _drawn("B", 30.0, senses={"palm to jaw": -1})]
    unlike = [_drawn("A", 10.0, equaliser="pulley"), _drawn("B", 30.0)]
    for pair, told in ((against, "turn palm to jaw against each other"), (unlike, "A: pulley, B: none")):
        for move in at_one_hand(WRIST, pair):
            assert move.pull_n is None
            assert told in move.pull_unknown
            assert told in move.ways_unknown
    unknown = _drawn("B", 30.0)
    lost = replace(unknown, move=replace(unknown.move, pull_n=None, pull_unknown="no tip is stated"))
    one, two = at_one_hand(WRIST, [_drawn("A", 10.0), lost])
    assert one.pull_n is None
    assert "the pull of B is not known: no tip is stated" in one.pull_unknown
    assert two.pull_unknown == "no tip is stated"

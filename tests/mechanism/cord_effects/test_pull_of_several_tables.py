"""Several cords on one joint of the body: pulls added, the longest way had, and what cannot be known is asked."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from planner.job import Cord, Drive, Equaliser
from planner.mechanism.cord_effects.cord_moves import PINS
from planner.mechanism.cord_effects.pull_of_one_table import Kept
from planner.mechanism.cord_effects.pull_of_several_tables import Drawn, at_one_hand, body_of
from planner.mechanism.force.together.asked_alone import JointAsk
from planner.mechanism.movement.move_records import CordMove
from tests.mechanism.force.together.straight_finger import Line, finger_moves

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
    crossed = senses or {f"to {name}": 1}
    pulls = tuple((each, each) for each in (pull - 1, pull, pull + 1))
    asks = [JointAsk(name=joint, driven=cord.drives, shares=(0.0, 1.0), pulls_n=pulls) for joint in crossed]
    return Drawn(cord=cord, move=move, senses=crossed, grip_for=_share, asks=lambda *_: asks)


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


def _pulls(folder: Path, *lines: Line, use: str = "grip_n = 10.0\n") -> tuple[float, float]:
    """Return the least and the greatest pull of all cords, without any friction."""
    moves = finger_moves(folder, lines, use)
    assert not any(move.unknown for move in moves)
    assert {move.pull_unknown for move in moves} <= {"", PINS}
    (pull,) = {move.pull_n for move in moves}
    assert pull is not None
    assert pull[1] == pytest.approx(pull[2], rel=1e-3)
    return pull[0], pull[1]


def test_cords_that_share_one_of_their_joints_each_hold_what_no_other_does(tmp_path: Path) -> None:
    """One on A and B (8 mm), one on B and C (12 mm), each to its own tip: A alone holds both, so 181.25 + 25 N.

    Moments of 10 N at 55 and at 90 mm (lever, textbook): A 1,450 N mm, all of it the first's: 181.25 N, which is more
    than B's 850 asks; C 300, all of it the second's: 25 N. The larger of the cords alone would be 68.75 N.
    """
    near = Line(levers_mm={0: 8.0, 1: 8.0}, drives="two", grip_x_mm=55.0)
    far = Line(levers_mm={1: 12.0, 2: 12.0}, drives="three", grip_x_mm=90.0)

    least, most = _pulls(tmp_path, near, far)

    assert (least, most) == pytest.approx((206.25, 206.25), rel=1e-3)
    one, two = finger_moves(tmp_path, [near, far])
    assert "share joints" in one.together
    assert not one.curve_n + two.curve_n  # the curve of one tip alone would show too little


def test_what_cords_of_one_tip_pull_at_a_shared_joint_lies_between_the_ways_to_tie_them(tmp_path: Path) -> None:
    """A 900, B 600, C 300 N mm of one tip; levers 20 and 4, 6 and 12 mm: 45 + 70 N, or 112.5 + 25 N; 2 x 60 over a pulley.

    B: 4 x + 6 y = 600 from x = 45 (A) to y = 25 (C); over a pulley both are 600 / (4 + 6).
    """
    near, far = {0: 20.0, 1: 4.0}, {1: 6.0, 2: 12.0}
    for more, pulls in (("", (115.0, 137.5)), ('equaliser = "pulley"\n', (120.0, 120.0))):
        lines = [Line(levers_mm=way, drives="three", grip_x_mm=90.0, more=more) for way in (near, far)]
        assert _pulls(tmp_path, *lines) == pytest.approx(pulls, rel=1e-3)


def test_a_joint_holds_the_tip_of_a_cord_that_does_not_cross_it(tmp_path: Path) -> None:
    """The first turns A alone, the second B and C beyond it: A holds 10 N at 25 and at 90 mm, 1,150 N mm over 8 mm.

    143.75 N, and 600 / 12 = 50 N: together 193.75; each drawn by a joint of the body of its own, 143.75 and 50.
    """
    near = Line(levers_mm={0: 8.0}, drives="one", grip_x_mm=25.0)
    far = Line(levers_mm={1: 12.0, 2: 12.0}, drives="three", grip_x_mm=90.0)

    assert _pulls(tmp_path, near, far) == pytest.approx((193.75, 193.75), rel=1e-3)

    one, two = finger_moves(tmp_path, [replace(near, more='from = "elbow"\n'), replace(far, more='from = "wrist"\n')])
    assert one.pull_n == pytest.approx([143.75] * 3, rel=1e-3)
    assert two.pull_n == pytest.approx([50.0] * 3, rel=1e-3)
    assert "hold what other cords grip" in one.together
    assert not two.together


def test_an_elastic_over_a_shared_joint_counts_once(tmp_path: Path) -> None:
    """5 N at 10 mm over B, whose cords have 4 and 6 mm: 850 + 50 N mm, so (900 - 6 x 25) / 4 + 25 N where tied worst."""
    near = Line(levers_mm={0: 50.0, 1: 4.0}, drives="two", grip_x_mm=55.0)
    far = Line(levers_mm={1: 6.0, 2: 12.0}, drives="three", grip_x_mm=90.0)
    band = Line(levers_mm={1: -10.0}, more='kind = "elastic"\nforce_n = 5.0\nrate_n_per_mm = 0.001\n')

    least, most = _pulls(tmp_path, near, far, band)

    assert most == pytest.approx(212.5, rel=1e-3)
    assert least == pytest.approx(29.0 + (900.0 - 4.0 * 29.0) / 6.0, rel=1e-3)


def test_the_grip_of_a_kept_up_pull_counts_all_that_share_it(tmp_path: Path) -> None:
    """What 206.25 N grip with 10 N, half of them, as can be kept up, grip with 5: all moments are of the grip."""
    near = Line(levers_mm={0: 8.0, 1: 8.0}, drives="two", grip_x_mm=55.0)
    far = Line(levers_mm={1: 12.0, 2: 12.0}, drives="three", grip_x_mm=90.0)
    for move in finger_moves(tmp_path, [near, far], "grip_n = 10.0\npull_n = 206.25\n"):
        assert move.grip_for_n is not None
        kept = move.grip_for_n[0]
        assert move.grip_for_n[1:4] == pytest.approx([10.0 * kept / 206.25] * 3, rel=2e-3)


def test_pins_under_the_tips_of_several_cords_are_asked_for(tmp_path: Path) -> None:
    """A holds two tips: what its pin takes is a hold; of the far cord, whose joints hold its own tip alone, none."""
    near = Line(levers_mm={0: 8.0}, drives="one", grip_x_mm=25.0)
    far = Line(levers_mm={1: 12.0, 2: 12.0}, drives="three", grip_x_mm=90.0)
    one, two = finger_moves(tmp_path, [near, far])

    assert (one.pull_unknown, two.pull_unknown) == (PINS, "")
    assert one.pull_n is not None

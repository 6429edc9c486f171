"""What a cord alone would pull at a joint, for every tip that hangs on it."""

from __future__ import annotations

from planner.mechanism.force.together.asked_alone import MOST_N, JointAsk


def test_a_place_at_which_no_pull_turns_the_joint_makes_its_neighbours_none_either() -> None:
    """From nothing to what is infinite there is no line: more than half of the way stands for none."""
    ask = JointAsk(name="A", driven="tip", shares=(0.0, 1.0), pulls_n=((10.0, MOST_N),) * 3)
    assert ask.at(0.0, 0) == 10.0
    assert ask.at(1.0, 0) == ask.at(0.75, 0) == float("inf")

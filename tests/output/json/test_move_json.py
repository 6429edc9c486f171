"""What ``move`` answers as JSON: the words of the contract, for joints that turn, slide or are not known."""

from __future__ import annotations

import json

from planner.finding import Finding, Verdict
from planner.mechanism import CordMove, JointMove, Moved, PinForce, Stop, Tip
from planner.output.json.move_json import move_json


def _joint(kind: str, **more: object) -> JointMove:
    return JointMove(
        name="deck to jaw",
        parts=("deck", "jaw#2"),
        kind=kind,  # type: ignore[arg-type]
        axis=(0.0, 0.0, 1.0),
        at_mm=(1.0, 2.0, 3.0),
        free_deg=(None, 30.0),
        stops=(Stop(at_deg=30.0, what="meets", parts=("deck", "jaw#2"), at_mm=(4.0, 5.0, 6.0), arm_mm=10.0),),
        needs_deg=(0.0, 25.0),
        **more,  # type: ignore[arg-type]
    )


def test_every_key_of_the_contract_is_there() -> None:
    """Joints, cords, pins and tip, plain types only."""
    cord = CordMove(
        name="pull",
        part="deck",
        joint="deck to jaw",
        travel_mm=9.0,
        has_mm=17.0,
        length_mm=(180.0, 171.0),
        arm_mm=(16.0, 18.0, 20.0),
        bends_deg=90.0,
        pull_n=(20.0, 25.0, 40.0),
        grip_n=2.0,
        friction=(0.1, 0.2, 0.3),
        back_n_mm=(3.0, 6.0),
    )
    moved = Moved(
        scale_percent=106.5,
        joints=(_joint("turns"), _joint("slides"), _joint("turns", unknown="nobody knows")),
        cords=(cord,),
        pins=(PinForce(hardware="post", part="deck", force_n=(1.0, 2.0, 3.0)),),
        tip=Tip(copy="jaw", wobble_mm=(3.0, 2.0), spread_mm=None),
        unplaced=(("cap", "nothing says where it stands"),),
    )
    hold = Finding(rule="move.pull", part="deck", verdict=Verdict.HOLD, why="x")
    found = json.loads(json.dumps(move_json(moved, [hold])))

    assert (found["schema"], found["verdict"]) == ("fitwright/move/1", "hold")
    turns, slides, unknown = found["joints"]
    assert {"name", "parts", "kind", "axis_mm", "at_mm", "free_deg", "stops", "needs_deg", "play_mm"} <= set(turns)
    assert turns["free_deg"] == [None, 30.0]
    assert turns["stops"][0]["at_deg"] == 30.0
    assert "free_mm" in slides
    assert "free_deg" not in slides
    assert unknown["unknown"] == "nobody knows"
    assert found["cords"][0]["arm_mm"] == {"low": 16.0, "at_rest": 18.0, "high": 20.0}
    assert found["cords"][0]["pull_n"] == {"low": 20.0, "expected": 25.0, "high": 40.0}
    assert found["cords"][0]["length_mm"] == {"open": 180.0, "closed": 171.0}
    assert (found["cords"][0]["friction"], found["cords"][0]["friction_range"]) == (0.2, [0.1, 0.3])
    assert found["cords"][0]["slack_mm"] == 8.0
    assert found["pins"] == [{"hardware": "post", "part": "deck", "force_n": [1.0, 2.0, 3.0]}]
    assert (found["tip"]["wobble_mm"], found["tip"]["wobble_p90_mm"]) == (3.0, 2.0)
    assert found["unplaced"] == [{"copy": "cap", "why": "nothing says where it stands"}]

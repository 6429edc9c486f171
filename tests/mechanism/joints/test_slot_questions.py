"""Pins in slots of which nothing says how they move."""

from __future__ import annotations

from dataclasses import replace

from planner.mechanism.joints.slot_questions import slot_questions
from tests.mechanism.invented import turns


def test_a_loose_pin_in_a_slot_is_a_question_unless_others_hold_the_parts_fast() -> None:
    """Arm and rod move on each other in a way that nobody says; fixed to each other all the same, they do not."""
    joint, pair = turns("base", "arm", 0.0, 0.0), ("arm", "rod")

    (said,) = slot_questions([joint], [pair])
    assert said == "arm to rod: a pin of rod lies in a slot of arm, and nothing else holds rod"
    (both,) = slot_questions([joint, turns("base", "rod", 9.0, 0.0)], [pair])
    assert both.endswith("and nobody says whether it slides or turns there")
    held = replace(joint, kind="fixed", parts=pair)
    assert slot_questions([joint, held], [pair]) == ()

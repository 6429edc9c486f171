"""Pins in slots of which nobody says how they move."""

from __future__ import annotations

from dataclasses import replace

from planner.mechanism.joints.slot_questions import slot_questions
from tests.conftest import MakeJob
from tests.mechanism.invented import DEVICE_ZERO, turns


def test_a_question_where_something_must_move_and_a_note_where_nothing_must(make_job: MakeJob) -> None:
    """A stated need of a joint that hangs on the slot makes it a question; what is fixed all the same is neither."""
    job = make_job(DEVICE_ZERO.job_text, **DEVICE_ZERO.solids)
    needs = '[[joint]]\nbetween = ["base", "arm"]\nhow = "turns"\nneeds_deg = [0, 10]\n'
    asked = make_job(DEVICE_ZERO.job_text + needs, **DEVICE_ZERO.solids)
    joint = turns("base", "arm", 0.0, 0.0)
    pair = ("arm", "rod")

    assert slot_questions(job, [joint], [pair]) == (
        (),
        ("a pin of rod lies in a slot of arm: say with [[joint]] whether it slides",),
    )
    unsolved, notes = slot_questions(asked, [joint], [pair])
    assert notes == ()
    assert len(unsolved) == 1
    assert unsolved[0].startswith("arm to rod: a pin of rod lies in a slot of arm")
    held = replace(joint, kind="fixed", parts=pair)
    assert slot_questions(asked, [joint, held], [pair]) == ((), ())

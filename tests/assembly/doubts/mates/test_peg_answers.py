"""A bore that a peg of another part may go into is asked about, and the answer states a joint."""

from __future__ import annotations

from manifold3d import Manifold

from planner.assembly.doubts.bore_doubts import answered, bore_doubts
from planner.job import with_edits
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import cylinder, solid_of

TEXT = '[job]\nname = "x"\n' + "".join(f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\nduty = "shell"\n' for n in "ab")


def test_a_peg_drawn_in_its_bore_is_the_likeliest_answer_and_settles_it(make_job: MakeJob) -> None:
    """Before any screw of that size; answered, the joint is stated and the bore is asked about no more."""
    plate = solid_of(Manifold.cube((40, 20, 4), True) + cylinder(8.0, 12.0, 64), "a")
    lever = solid_of(Manifold.cube((30, 16, 5), True).translate((0, 0, 7)) - cylinder(8.4, 20.0, 64), "b")
    job, surveys = make_job(TEXT, a=plate, b=lever), {"a": survey(plate), "b": survey(lever)}
    ((_, answers),) = answered(job, surveys)
    (doubt,) = bore_doubts(job, surveys, 5)
    after = with_edits(job, doubt.option("a-peg-turns").edits)

    assert [answer.name for answer in answers[:2]] == ["a-peg-turns", "a-peg-fixed"]
    assert [(joint.between, joint.how) for joint in after.joints] == [(("a", "b"), "turns")]
    assert bore_doubts(after, surveys, 5) == []

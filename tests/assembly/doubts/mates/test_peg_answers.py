"""A bore that a peg of another part may go into is asked about, and the answer states a joint."""

from __future__ import annotations

import pytest
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


def test_two_sizes_of_bores_share_the_joint_of_their_two_parts(make_job: MakeJob) -> None:
    """A stepped axle turns in two bores of one part: that nothing goes through the second does not undo the first."""
    axle = cylinder(8.0, 12.0, 64) + cylinder(5.0, 40.0, 48)
    fork = Manifold.cube((30, 24, 5), True).translate((0, 0, 7)) - cylinder(8.4, 20.0, 64)
    top = Manifold.cube((30, 24, 5), True).translate((0, 0, 30)) - cylinder(5.4, 60.0, 64)
    fork += top + Manifold.cube((4, 24, 28), True).translate((13, 0, 18))
    base = solid_of(Manifold.cube((40, 20, 4), True) + axle, "a")
    job, surveys = make_job(TEXT, a=base, b=solid_of(fork, "b")), {"a": survey(base), "b": survey(solid_of(fork, "b"))}
    small, wide = sorted(bore_doubts(job, surveys, 5), key=lambda doubt: doubt.id)
    after = with_edits(job, (*wide.option("a-peg-turns").edits, *small.option("nothing").edits))

    assert (small.id, wide.id) == ("bores-5.4-through", "bores-8.4-through")
    assert [(joint.between, joint.how) for joint in after.joints] == [(("a", "b"), "turns")]
    assert bore_doubts(after, surveys, 5) == []


def test_a_bore_with_a_flat_is_asked_about_where_a_shaft_is_drawn_in_it(make_job: MakeJob) -> None:
    """A knob on a shaft with a flat: it does not turn there, and answered it is asked about no more."""
    flat = Manifold.cube((20, 20, 90), True).translate((12.0, 0, 0))
    shaft = solid_of(cylinder(6.0, 30.0, 64) - flat, "a")
    knob = solid_of(cylinder(25.0, 8.0, 96).translate((0, 0, 5)) - (cylinder(6.1, 30.0, 64) - flat), "b")
    job, surveys = make_job(TEXT, a=shaft, b=knob), {"a": survey(shaft), "b": survey(knob)}
    (doubt,) = bore_doubts(job, surveys, 5)
    after = with_edits(job, doubt.option("a-peg-fixed").edits)

    assert doubt.default == "a-peg-fixed"
    assert bore_doubts(after, surveys, 5) == []


@pytest.mark.parametrize(("long_mm", "offered"), [(60.0, True), (20.0, False)])
def test_a_tube_in_a_tube_may_slide(make_job: MakeJob, long_mm: float, offered: bool) -> None:
    """Telescoping tubes of 19.6 in 20.4 mm: led along each other for 1.5 diameters or more; a ring on a stub is not."""
    inner = solid_of(cylinder(19.6, long_mm, 96) - cylinder(14.0, 300.0, 96).translate((0, 0, -100)), "a")
    outer = solid_of(cylinder(26.0, long_mm, 96) - cylinder(20.4, 300.0, 96).translate((0, 0, -100)), "b")
    job, surveys = make_job(TEXT, a=inner, b=outer), {"a": survey(inner), "b": survey(outer)}
    doubt = next(one for one in bore_doubts(job, surveys, 5) if one.id == "bores-20.4-through")
    slides = [one for one in doubt.options if one.name == "a-peg-slides"]

    assert bool(slides) is offered
    if slides:
        after = with_edits(job, slides[0].edits)
        assert [(joint.between, joint.how) for joint in after.joints] == [(("a", "b"), "slides")]
        assert doubt.id not in [one.id for one in bore_doubts(after, surveys, 5)]


def test_a_tube_that_has_the_size_of_another_tubes_bore_is_asked_about_first(make_job: MakeJob) -> None:
    """Drawn apart, 20 mm in 20.4 over six diameters: it slides, as likely as not, and is no window beside others."""
    inner = solid_of(cylinder(20.0, 130.0, 64) - cylinder(14.0, 300.0, 64).translate((0, 0, -9)), "a")
    outer = solid_of(
        (cylinder(26.0, 120.0, 64) - cylinder(20.4, 300.0, 64).translate((0, 0, -9))).translate((60, 0, 0)), "b"
    )
    job, surveys = make_job(TEXT, a=inner, b=outer), {"a": survey(inner), "b": survey(outer)}
    first, *_ = bore_doubts(job, surveys, 2)
    after = with_edits(job, first.option("a-peg-slides").edits)

    assert (first.id, first.default) == ("bores-20.4-through", "a-peg-slides")
    assert [(joint.between, joint.how) for joint in after.joints] == [(("a", "b"), "slides")]

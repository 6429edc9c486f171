"""What is drawn between faces of another part is asked about once for the two, and every answer closes the question."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.assembly import CloseFit, joint_between
from planner.assembly.doubts import doubts_of
from planner.job import Gap, Hardware, Job, with_edits
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = '[job]\nname = "x"\nmesh_unit = "mm"\n' + "".join(
    f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\nduty = "load"\n' for n in ("arm", "grip")
)
TENON = CloseFit(
    inner="arm", outer="grip", width_mm=6.0, room_mm=0.1, way=(1.0, 0.0, 0.0), at_mm=(0.0, 0.0, 0.0), sloped=False
)
BOTH_WAYS = (TENON, replace(TENON, way=(0.0, 1.0, 0.0)), replace(TENON, inner="grip", outer="arm", room_mm=0.4))


SURVEYS = {name: survey(cuboid(30, 20, 6)) for name in ("arm", "grip")}


def _asked(job: Job) -> list[str]:
    return [doubt.id for doubt in doubts_of(job, SURVEYS, close=BOTH_WAYS)]


@pytest.fixture
def job(make_job: MakeJob) -> Job:
    """Return a job of two parts that no joint is stated for."""
    return make_job(TEXT, arm=cuboid(30, 20, 6), grip=cuboid(30, 20, 6))


def test_a_tenon_is_one_question_that_each_answer_closes(job: Job) -> None:
    """Both directions across, and what the grip is to the arm: one question; either answer states their joint."""
    (doubt,) = doubts_of(job, SURVEYS, close=BOTH_WAYS)

    assert (doubt.id, doubt.default, doubt.features) == ("between-arm-grip", "fixed", (("arm", "in grip"),))
    for option, how in (("fixed", "pressed"), ("moves", "slides")):
        after = with_edits(job, doubt.option(option).edits)
        assert joint_between(after, "arm", "grip") == how
        assert _asked(after) == []


def test_a_tongue_in_a_dovetail_is_likelier_to_move(job: Job) -> None:
    """What cannot be lifted out was drawn to slide, more often than not; common practice, no source."""
    (doubt,) = doubts_of(job, SURVEYS, close=(replace(TENON, sloped=True),))

    assert doubt.default == "moves"


def test_a_gap_or_a_turning_pin_answers_it(job: Job) -> None:
    """A running gap that is stated, and a pin that turns in both parts, say that they move; a guessed pin says nothing."""
    pin = Hardware(name="pin", kind="dowel-pin", diameter_mm=5.0, joins=("arm", "grip"), fit="turning")

    assert _asked(replace(job, gaps=(Gap(between=("grip", "arm"), drawn_mm=0.3),))) == []
    assert joint_between(replace(job, hardware=(pin,)), "grip", "arm") == "turns"
    assert _asked(replace(job, hardware=(replace(pin, guessed=("fit",)),))) == ["between-arm-grip"]


def test_beside_a_likely_pivot_it_turns_and_does_not_stay_fixed(job: Job) -> None:
    """A pin that turns in both by its form alone: the likelier answer is that they turn about it, not that one is fixed."""
    pin = Hardware(
        name="pin", kind="dowel-pin", diameter_mm=5.0, joins=("arm", "grip"), fit="turning", guessed=("fit", "kind")
    )
    (doubt,) = doubts_of(replace(job, hardware=(pin,)), SURVEYS, close=(TENON,))

    assert doubt.default == "moves"
    assert joint_between(with_edits(job, doubt.option("moves").edits), "arm", "grip") == "turns"

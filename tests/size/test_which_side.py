"""Left and right: what is mirrored is said in a check, and a side that is not known holds what is handed."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.finding import Verdict
from planner.job import read_job
from planner.size.which_side import sides
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = '[job]\nname = "x"\n[size]\n{}\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\nhanded = {}\n'


@pytest.mark.parametrize(
    ("size", "handed", "verdict", "told"),
    [
        ('side = "left"\ndrawn_for = "right"', "true", Verdict.GO, "a will be mirrored"),
        ('side = "left"\ndrawn_for = "left"', "true", Verdict.GO, "nothing is mirrored"),
        ('side = "left"', "true", Verdict.HOLD, "drawn for is not stated"),
        ('drawn_for = "left"', "true", Verdict.HOLD, "worn on is not stated"),
        ("", "true", Verdict.GO, "a will be printed as drawn"),
        ('side = "left"\ndrawn_for = "right"', "false", Verdict.GO, "no part is handed"),
    ],
)
def test_a_side_that_is_not_known_holds_a_handed_part(
    make_job: MakeJob, size: str, handed: str, verdict: Verdict, told: str
) -> None:
    """Stated by half is a hold with the question; both sides say what is mirrored; neither prints as drawn, with a word."""
    (found,) = sides(make_job(TEXT.format(size, handed), a=cuboid(20, 20, 5)))

    assert found.verdict is verdict
    assert told in found.why
    assert bool(found.question) is (verdict is Verdict.HOLD or not size)


def test_a_device_without_sides_is_asked_nothing(make_job: MakeJob) -> None:
    """No handed part and no side: there is nothing to say."""
    assert sides(make_job(TEXT.format("", "false"), a=cuboid(20, 20, 5))) == []


def test_the_sample_device_says_what_it_mirrors(heron: Path) -> None:
    """The Heron is drawn for the right and worn on the left: cuff and cover are mirrored, text and threads are looked at."""
    (found,) = sides(read_job(heron))

    assert "cuff and cover will be mirrored" in found.why
    assert "thread" in found.caution

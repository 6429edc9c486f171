"""``[[work]]`` of a job file: read whole, or refused in one sentence."""

from __future__ import annotations

import pytest

from planner.errors import JobError
from planner.job import HandWork
from tests.conftest import MakeJob
from tests.shapes import cuboid

HEAD = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'


def test_work_is_read_in_its_order(make_job: MakeJob) -> None:
    """A bore is drilled first and bushed then."""
    text = (
        '[[work]]\npart = "a"\nbores = ["b1"]\nkind = "drill"\nto_mm = 6.8\ndepth_mm = 9.0\n'
        '[[work]]\npart = "a"\ndrawn_mm = 5.3\nkind = "bush"\nto_mm = 5.2\n'
    )
    job = make_job(HEAD + text, a=cuboid(10, 10, 10))

    assert job.works == (
        HandWork(part="a", kind="drill", to_mm=6.8, bores=("b1",), depth_mm=9.0),
        HandWork(part="a", kind="bush", to_mm=5.2, drawn_mm=5.3),
    )


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ('part = "a"\nkind = "drill"\nto_mm = 3.0\n', "neither bores nor drawn_mm"),
        ('part = "a"\nkind = "drill"\nto_mm = 3.0\nbores = ["b1"]\ndrawn_mm = 3.0\n', "both bores and drawn_mm"),
        ('part = "a"\nkind = "saw"\nto_mm = 3.0\nbores = ["b1"]\n', "'saw' is not known"),
        ('part = "z"\nkind = "drill"\nto_mm = 3.0\nbores = ["b1"]\n', "no part is called 'z'"),
        ('part = "a"\nkind = "drill"\nto_mm = -3.0\nbores = ["b1"]\n', "cannot be"),
        ('part = "a"\nkind = "sand"\nto_mm = 3.0\n', "neither pegs nor drawn_mm"),
        ('part = "a"\nkind = "sand"\nto_mm = 3.0\nbores = ["b1"]\n', "this is sand"),
        ('part = "a"\nkind = "file"\nto_mm = 3.0\ndrawn_mm = 4.0\n', "into and drawn_mm"),
        ('part = "a"\nkind = "file"\nto_mm = 3.0\ndrawn_mm = 4.0\ninto = "z"\n', "no part is called 'z'"),
        ('part = "a"\nkind = "drill"\nto_mm = 3.0\nbores = ["b1"]\npegs = ["p1"]\n', "this is drill"),
    ],
)
def test_work_that_says_too_little_is_refused(text: str, wrong: str, make_job: MakeJob) -> None:
    """Which bores, which part, and a known kind are needed."""
    with pytest.raises(JobError) as told:
        make_job(f"{HEAD}[[work]]\n{text}", a=cuboid(10, 10, 10))

    assert wrong in str(told.value)

"""``[plan]`` of a job file: hours of the week as a person writes them, and printers of a kind."""

from __future__ import annotations

import pytest

from planner.errors import JobError
from planner.job import Attended
from tests.conftest import MakeJob
from tests.shapes import cuboid

HEAD = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n[plan]\n'


def test_hours_over_midnight_belong_to_two_days(make_job: MakeJob) -> None:
    """Friday 22:00 to 02:00 is Friday's last two hours and Saturday's first two."""
    calendar = make_job(HEAD + 'attended = ["Fri 22:00-02:00"]\n', a=cuboid(10, 10, 10)).calendar

    assert calendar is not None
    assert calendar.attended == (
        Attended(days=(4,), from_min=22 * 60, to_min=24 * 60),
        Attended(days=(5,), from_min=0, to_min=120),
    )


def test_two_printers_of_a_kind_have_two_names(make_job: MakeJob) -> None:
    """A plate must be able to say on which of two equal printers it lies."""
    job = make_job(HEAD + 'printers = ["bench-220", "bench-220"]\n', a=cuboid(10, 10, 10))

    assert len({job.printer.name, *(printer.name for printer in job.more_printers)}) == 2


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ('attended = ["evenings"]\n', "'evenings' cannot be read"),
        ('attended = ["Mox 08:00-10:00"]\n', "'Mox' is not a day of the week"),
        ('attended = ["Mon 08:70-10:00"]\n', "a time that does not exist"),
        ('attended = ["Mon 08:00-08:00"]\n', "is empty"),
        ('zone = "Europe/Millbrook"\n', "no time zone is called"),
    ],
)
def test_hours_that_do_not_exist_are_refused(text: str, wrong: str, make_job: MakeJob) -> None:
    """Each is quoted as it was written."""
    with pytest.raises(JobError, match=wrong):
        make_job(HEAD + text, a=cuboid(10, 10, 10))

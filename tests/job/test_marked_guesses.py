"""Guesses that a job file marks: told when it is read, and gone once they are stated."""

from __future__ import annotations

from planner.job import marked_guesses
from tests.conftest import MakeJob
from tests.shapes import cuboid

HEAD = '[job]\nname = "x"\nmesh_unit = "mm"\n'
PART = '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\ncount = 2\n'


def test_what_is_in_the_list_is_a_guess(make_job: MakeJob) -> None:
    """A duty, a number of copies and a unit that nobody stated are told with their values."""
    job = make_job(HEAD + 'guessed = ["mesh_unit"]\n' + PART + 'guessed = ["duty", "count"]\n', a=cuboid(30, 20, 5))

    assert {(g.what, g.value) for g in marked_guesses(job)} == {
        ("duty of part", "cover"),
        ("count of part", "2"),
        ("mesh_unit of job", "mm"),
    }
    assert job.mesh_unit is None
    assert not job.parts[0].duty_stated


def test_what_is_not_in_the_list_is_stated(make_job: MakeJob) -> None:
    """The same file without the lists holds no guess."""
    job = make_job(HEAD + PART, a=cuboid(30, 20, 5))

    assert marked_guesses(job) == ()
    assert job.mesh_unit == "mm"

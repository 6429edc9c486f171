"""The job's record: what it answers where somebody left something out."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.job import Job, Part, Use, read_job

PART = Part(name="a", mesh=Path("a.stl"), count=2, spares=1)


@pytest.fixture(name="job", scope="module")
def _job(heron: Path) -> Job:
    return read_job(heron)


def test_spares_are_printed_too_and_an_unknown_duty_is_the_hardest() -> None:
    """Two and a spare are three copies; a part of which nobody says what it does is judged as carrying load."""
    assert PART.printed_n == 3
    assert (PART.judged_duty, PART.duty_stated) == ("load", False)
    assert replace(PART, duty="cover").duty_stated
    assert not replace(PART, duty="cover", guessed=("duty",)).duty_stated


def test_the_grip_that_is_wanted_is_the_load_unless_it_is_stated() -> None:
    """Neither stated: none; a load alone counts; a grip comes first."""
    assert [
        Use(load_n=load, grip_n=grip).wanted_grip_n for load, grip in ((None, None), (20.0, None), (20.0, 8.0))
    ] == [
        None,
        20.0,
        8.0,
    ]


def test_what_is_not_in_the_job_is_refused(job: Job) -> None:
    """A part or material of another name is a KeyError, never the nearest."""
    assert job.part(job.parts[0].name) is job.parts[0]
    with pytest.raises(KeyError):
        job.part("no such part")
    with pytest.raises(KeyError):
        job.material_named("no such material")


def test_an_own_layer_height_changes_nothing_else(job: Job) -> None:
    """Settings at 0.12 mm differ in that number alone; a height that is the settings' own is none."""
    own = job.settings_at(0.12)
    name, usual = job.parts[0].name, job.settings.layer_height_mm.value
    as_set = replace(job, parts=(replace(job.parts[0], layer_height_mm=usual), *job.parts[1:]))

    assert own.layer_height_mm.value == 0.12
    assert replace(own, layer_height_mm=job.settings.layer_height_mm) == job.settings
    assert job.settings_at(None) is job.settings
    assert as_set.own_height_mm(name) is None

"""Before a scale is used: meshes read and measured; in a job guessed from a folder, those that cannot be are holds."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from planner.errors import MeshError
from planner.finding import Verdict
from planner.job import Job
from planner.plan import prepare
from planner.plan.prepare import read_meshes
from tests.conftest import MakeJob
from tests.shapes import bored_plate, cuboid

PARTS = "".join(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "cover"\n' for name in ("good", "bad"))


@pytest.fixture(name="job")
def _job(make_job: MakeJob) -> Job:
    """Return a job of two parts, one of whose meshes is no mesh."""
    solids = {"good": cuboid(40, 30, 6), "bad": cuboid(40, 30, 6)}
    job = make_job(f'[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n{PARTS}', **solids)
    job.part("good").mesh.with_name("bad.stl").write_bytes(b"solid of nothing")
    return job


def test_a_mesh_that_cannot_be_read_ends_a_job_that_somebody_wrote(job: Job) -> None:
    """Its file is named."""
    with pytest.raises(MeshError, match=r"bad\.stl"):
        read_meshes(job, lambda *_: None)


def test_in_a_guessed_job_it_is_a_hold_and_the_others_are_judged(job: Job) -> None:
    """It leaves the job, and asks whether the file is part of the device; with none left nothing can be judged."""
    guessed = replace(job, guessed=True)
    read = read_meshes(guessed, lambda *_: None)

    assert [part.name for part in read.job.parts] == list(read.solids) == ["good"]
    assert [(one.rule, one.verdict, one.feature) for one in read.unread] == [("mesh.unread", Verdict.HOLD, "bad")]
    assert "bad.stl part of the device" in read.unread[0].question
    with pytest.raises(MeshError):
        read_meshes(replace(guessed, parts=guessed.parts[1:]), lambda *_: None)


def test_what_is_measured_and_chosen_is_there_for_every_part(make_job: MakeJob) -> None:
    """A bore of 5.3 mm and one way down, known by hand; progress is told from reading to joining."""
    told: list[str] = []
    text = '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\npose = [0, 0, -1]\n'
    job = make_job(text, a=bored_plate(40, 30, 6, [(20, 15, 5.3, 48)]))
    ready = prepare(job, date(2026, 12, 1), lambda what, _: told.append(what.split()[0]))

    assert [bore.drawn_diameter_mm for bore in ready.surveys["a"].bores] == pytest.approx([5.3], abs=1e-3)
    assert ready.downs == {"a": (0.0, 0.0, -1.0)}
    assert ready.sizing.percent == 100.0
    assert list(dict.fromkeys(told)) == ["reading", "measuring", "joining"]

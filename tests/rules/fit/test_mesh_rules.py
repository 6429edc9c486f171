"""Rules about meshes: one planted fault each, and no word about sound ones."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from planner.finding import Finding, Verdict
from planner.job import Job
from planner.rules.fit.mesh_rules import mesh_findings
from planner.survey import Survey, survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate

PLATE = bored_plate(40, 30, 6, [(12, 15, 6, 32)])
TEXT = '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n' + "".join(
    f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "cover"\n' for name in ("one", "two")
)


@pytest.fixture(name="job")
def _job(make_job: MakeJob) -> Job:
    """Return a job of two parts."""
    return make_job(TEXT, one=PLATE, two=PLATE)


@pytest.fixture(name="measured", scope="module")
def _measured() -> Survey:
    """Return the survey of a plate with one bore."""
    return survey(PLATE)


def _grown(measured: Survey, by: float) -> Survey:
    """Return the survey of the same shape at another size."""
    x, y, z = measured.size_mm
    return replace(
        measured,
        size_mm=(by * x, by * y, by * z),
        volume_mm3=by**3 * measured.volume_mm3,
        area_mm2=by**2 * measured.area_mm2,
    )


def _told(job: Job, one: Survey, two: Survey) -> list[Finding]:
    """Return what is said of the two meshes."""
    return mesh_findings(job, {"one": one, "two": two})


def test_two_sound_meshes_of_one_size_get_no_word(job: Job, measured: Survey) -> None:
    """The same plate twice."""
    assert _told(job, measured, measured) == []


@pytest.mark.parametrize(
    ("change", "rule", "said"),
    [
        ({"faults": ("it is open",)}, "mesh.open", "one.stl is not sound: it is open"),
        ({"unit_doubt": "read as inches"}, "mesh.unit", "read as inches"),
    ],
)
def test_what_the_survey_doubts_is_a_hold(
    job: Job, measured: Survey, change: dict[str, Any], rule: str, said: str
) -> None:
    """A fault of the surface, or a doubt about the unit: held, with what was found."""
    found = [f for f in _told(job, replace(measured, **change), measured) if f.rule == rule]

    assert [(f.part, f.verdict, f.why) for f in found] == [("one", Verdict.HOLD, said)]


def _with(job: Job, **change: Any) -> Job:
    """Return the job with its first part changed."""
    return replace(job, parts=(replace(job.parts[0], **change), *job.parts[1:]))


def test_another_file_than_the_one_written_for_is_a_hold(job: Job, measured: Survey) -> None:
    """Its SHA-256 in capitals is the same file; any other is not."""
    sha = measured.sha256

    assert _told(_with(job, sha256=sha.upper()), measured, measured) == []
    (found,) = _told(_with(job, sha256="0" * 64), measured, measured)
    assert (found.rule, found.part, found.verdict) == ("mesh.changed", "one", Verdict.HOLD)


@pytest.mark.parametrize(
    ("name", "held"),
    [("cuff-112pc.stl", True), ("cuff-106.5pc-left.stl", True), ("cuff-100pc.stl", False), ("cuff-3pcs.stl", False)],
)
def test_a_file_that_says_it_is_at_size_would_be_scaled_twice(
    job: Job, measured: Survey, name: str, held: bool
) -> None:
    """Our own names of written parts are known again; at 100 %, and where the letters mean something else, not."""
    found = _told(_with(job, mesh=Path(name)), measured, measured)

    assert [f.rule for f in found] == (["mesh.sized"] if held else [])


def test_one_shape_at_two_sizes_is_a_hold_that_says_by_how_much(job: Job, measured: Survey) -> None:
    """The second at 112 %; at 100.1 % it is the same size; a plate wider by a tenth along x is another shape."""
    x, y, z = measured.size_mm
    (found,) = [f for f in _told(job, measured, _grown(measured, 1.12)) if f.rule == "size.mixed"]

    assert (found.part, found.verdict) == ("two", Verdict.HOLD)
    assert found.why == "two is one at 112.0 %: two sizes are mixed"
    for other in (_grown(measured, 1.001), replace(measured, size_mm=(1.1 * x, y, z), volume_mm3=1.1 * 7000.0)):
        assert [f.rule for f in _told(job, measured, other)] == []


def test_openings_that_were_not_recognised_are_counted_and_listed_only(job: Job, measured: Survey) -> None:
    """Two of three by topology: a go with a caution."""
    odd = replace(measured, handles_n=3)
    (found,) = _told(job, odd, measured)

    assert (found.rule, found.verdict, found.measured) == ("mesh.openings", Verdict.GO, 2.0)
    assert found.why.endswith("by its topology: 3; recognised as bores, slots or channels: 1")
    assert found.caution

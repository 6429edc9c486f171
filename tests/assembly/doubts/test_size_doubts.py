"""Questions about sizes: asked only where the answer is open."""

from __future__ import annotations

import pytest

from planner.assembly import doubts_of
from planner.job import Job, with_edits
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import cuboid

PART = '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
MEASURE = '[[size.measure]]\nname = "{}"\nkind = "width"\nrecipient_mm = {}\ndevice_mm = 60.0\n'


def _ids(job: Job) -> list[str]:
    """Return the ids of a job's questions."""
    return [doubt.id for doubt in doubts_of(job, {"a": survey(cuboid(30, 20, 6))})]


@pytest.mark.parametrize(
    ("unit", "sides", "asked"),
    [("", (3.0, 2.0, 0.6), ["unit"]), ('mesh_unit = "inch"\n', (3.0, 2.0, 0.6), []), ("", (30.0, 20.0, 6.0), [])],
)
def test_a_unit_is_asked_where_millimetres_make_no_device(
    unit: str, sides: tuple[float, float, float], asked: list[str], make_job: MakeJob
) -> None:
    """A largest part of 3 mm: inches are likelier, and nothing else is asked; not where the unit is stated."""
    solid = cuboid(*sides)
    job = make_job(f'[job]\nname = "x"\n{unit}{PART}', a=solid)
    doubts = doubts_of(job, {"a": survey(solid)})

    assert [doubt.id for doubt in doubts] == asked
    assert not asked or (doubts[0].default, doubts[0].option("inch").edits[0].put) == ("inch", {"mesh_unit": "inch"})


@pytest.mark.parametrize(
    ("size", "second_mm", "asked"),
    [("", 66.0, ["size-governs"]), ("", 61.0, []), ('governs = "wrist"\n', 66.0, []), ("percent = 100.0\n", 66.0, [])],
)
def test_which_measure_governs_is_asked_where_two_differ(
    size: str, second_mm: float, asked: list[str], make_job: MakeJob
) -> None:
    """66 for 60 mm against 60 for 60 are 10 % apart: asked, but not where a person has said so; 1.7 % are no question."""
    measures = MEASURE.format("wrist", 60.0) + MEASURE.format("elbow", second_mm)

    assert _ids(make_job(f'[job]\nname = "x"\n[size]\n{size}{measures}{PART}', a=cuboid(30, 20, 6))) == asked


@pytest.mark.parametrize(("guessed", "asked"), [('guessed = ["drawn_mm"]\n', ["gap-a-b"]), ("", [])])
def test_a_gap_that_was_guessed_is_asked(guessed: str, asked: list[str], make_job: MakeJob) -> None:
    """Its width as written, or as the meshes lie; what is stated is not asked."""
    second = PART.replace('"a"', '"b"')
    gap = '[[gap]]\nbetween = ["a", "b"]\ndrawn_mm = 0.3\n' + guessed
    solid = cuboid(30, 20, 6)
    job = make_job(f'[job]\nname = "x"\n{PART}{second}{gap}', a=solid)
    surveys = {name: survey(solid) for name in ("a", "b")}
    doubts = doubts_of(job, surveys)

    assert [doubt.id for doubt in doubts] == asked
    for option in (option for doubt in doubts for option in doubt.options):
        assert doubts_of(with_edits(job, option.edits), surveys) == ()

"""How many screws there are: parts in print pose do not tell, so it is asked, and nothing rests on a count of bores."""

from __future__ import annotations

import math

from manifold3d import Manifold

from planner.assembly import claims_of, doubts_of, unheld_findings
from planner.assembly.doubts.bore_doubts import answered
from planner.job import Job, edited, read_job, with_edits
from planner.survey import Survey, survey
from tests.conftest import MakeJob
from tests.shapes import cylinder, solid_of

PART = '[[part]]\nname = "{0}"\nmesh = "{0}.stl"\nduty = "load"\n'
TEXT = '[job]\nname = "x"\nmesh_unit = "mm"\n' + "".join(PART.format(name) for name in ("arm", "base", "lid"))


def bored(*at_x_mm: float, across_mm: float = 0.0) -> Manifold:
    """Return a plate with bores for M3, and pockets of that width across flats under them."""
    body = Manifold.cube((60, 20, 8), True)
    for x in at_x_mm:
        body -= cylinder(3.4, 40, 96).translate((x, 0, -20))
        if across_mm:
            body -= cylinder(across_mm / math.cos(math.pi / 6), 3, 6).translate((x, 0, 1.01))
    return body


def clamp(make_job: MakeJob, pocket_mm: float) -> tuple[Job, dict[str, Survey]]:
    """Return an arm with one bore and a base and a lid with two, none drawn in place, as answered that M3 go through.

    By hand: two screws at least, as the base has two bores; five if each went through one bore.
    """
    bodies = {"arm": bored(-20.0), "base": bored(-9.0, 9.0, across_mm=pocket_mm), "lid": bored(-13.0, 13.0)}
    solids = {name: solid_of(body, name) for name, body in bodies.items()}
    surveys = {name: survey(solid) for name, solid in solids.items()}
    job = make_job(TEXT, **solids)
    screw = next(one for _, answers in answered(job, surveys) for one in answers if one.name == "m3-screw")
    job.path.write_text(edited(job.path.read_text(), screw.edits))
    return read_job(job.path), surveys


def test_a_count_told_by_bores_stays_a_guess_and_is_asked(make_job: MakeJob) -> None:
    """The answer says what goes through, not how many: that question is open, and one answer closes it."""
    job, surveys = clamp(make_job, 0.0)
    (screw,) = job.hardware
    (doubt,) = doubts_of(job, surveys)

    assert screw.guessed == ("count",)
    assert claims_of(job, surveys).claims  # what goes through is no doubt any more
    assert sorted(option.name for option in doubt.options) == ["2", "5"]
    stated = with_edits(job, doubt.option("2").edits)
    assert (stated.hardware[0].count, stated.hardware[0].guessed) == (2, ())
    assert doubts_of(stated, surveys) == ()


def test_two_pairs_of_parts_are_offered_the_screws_that_join_pairs(make_job: MakeJob) -> None:
    """Four parts with two bores each: two screws through all, four that each join two parts, or eight."""
    names = ("a", "b", "c", "d")
    solids = {name: solid_of(bored(-10.0 - k, 10.0 + k), name) for k, name in enumerate(names)}
    surveys = {name: survey(solid) for name, solid in solids.items()}
    text = '[job]\nname = "x"\nmesh_unit = "mm"\n' + "".join(PART.format(name) for name in names)
    job = make_job(text, **solids)
    screw = next(one for _, answers in answered(job, surveys) for one in answers if one.name == "m3-screw")
    job.path.write_text(edited(job.path.read_text(), screw.edits))
    (doubt,) = doubts_of(read_job(job.path), surveys)

    assert sorted(option.name for option in doubt.options) == ["2", "4", "8"]
    assert "each joins two parts" in doubt.option("4").text


def test_nuts_in_pockets_tell_how_many_screws_there_are(make_job: MakeJob) -> None:
    """Two pockets, and no part with more than two bores: two screws, none of which nothing holds."""
    job, _ = clamp(make_job, 5.7)  # ISO 4032: an M3 nut is 5.5 mm across flats

    assert [(one.kind, one.count) for one in job.hardware] == [("machine-screw", 2), ("nut", 2)]
    assert [one.verdict.passes for one in unheld_findings(job)] == [True]

"""Screws over inserts: bores of one pattern in two parts say what each takes, and a screw that ends in an insert no nut."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from planner.assembly import claims_of
from planner.assembly.doubts.bore_doubts import bore_doubts
from planner.assembly.doubts.doubt import Doubt
from planner.assembly.screw_grips import screw_grips
from planner.finding import Vec3
from planner.job import Job, with_edits
from planner.mesh import Solid
from planner.survey import Survey, survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n' + "".join(
    f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\n' for name in ("box", "lid", "arm")
)
AT = [(6, 6), (54, 6), (6, 24), (54, 24)]
FAR = (0.0, 100.0, 0.0)


def _scene(
    make_job: MakeJob, at: list[tuple[int, int]], *, moved: Vec3 = FAR, lid_mm: float = 3.4
) -> tuple[Job, Mapping[str, Survey]]:
    """Return a box with bores of 4 mm, 6 deep (M3 inserts), a lid that is drawn elsewhere, and an arm with one of 3.3."""
    solids: dict[str, Solid] = {
        "box": bored_plate(60, 30, 14, [(x, y, 4.0, 96) for x, y in AT], deep=6.0),
        "lid": bored_plate(60, 30, 3, [(x, y, lid_mm, 96) for x, y in at]).moved(moved),
        "arm": bored_plate(40, 12, 6, [(6, 6, 3.3, 96)]).moved((0.0, 200.0, 0.0)),
    }
    job = make_job(TEXT, **solids)
    return job, {name: survey(solid) for name, solid in solids.items()}


def _by_id(job: Job, surveys: Mapping[str, Survey]) -> dict[str, Doubt]:
    """Return the questions about bores."""
    return {doubt.id: doubt for doubt in bore_doubts(job, surveys, 9)}


def test_a_lid_with_the_pattern_of_a_box_s_inserts_is_asked_about_by_itself(make_job: MakeJob) -> None:
    """Four bores of 3.4 (M3, medium, ISO 273) over four of 4.0: likeliest M3 inserts, and screws without nuts in both."""
    job, surveys = _scene(make_job, AT)
    doubts = _by_id(job, surveys)
    screw, insert = doubts["bores-3.4-lid"].options[0], doubts["bores-4.0-blind"].options[0]

    assert (screw.name, screw.text) == ("m3-screw", "an M3 screw goes through into an insert in box")
    assert insert.name == "m3-insert"
    assert doubts["bores-3.3-through"].features == (("arm", "b1"),)
    both = with_edits(job, (*screw.edits, *insert.edits))
    (held,) = screw_grips(both)
    assert (held.loose_n, [one.kind for one in held.by]) == (0, ["insert"])
    assert claims_of(both, surveys).missing == ()


def test_after_one_answer_the_other_stays_as_likely(make_job: MakeJob) -> None:
    """Whichever is answered first, the other question still knows of it."""
    job, surveys = _scene(make_job, AT)
    doubts = _by_id(job, surveys)
    after_screw = _by_id(with_edits(job, doubts["bores-3.4-lid"].options[0].edits), surveys)
    after_insert = _by_id(with_edits(job, doubts["bores-4.0-blind"].options[0].edits), surveys)

    assert after_screw["bores-4.0-blind"].options[0].name == "m3-insert"
    assert after_insert["bores-3.4-lid"].options[0].text.endswith("into an insert in box")


def test_two_bores_in_place_tell_as_much_as_a_pattern(make_job: MakeJob) -> None:
    """Drawn on the box, two bores on two of its axes; drawn elsewhere, two bores tell nothing."""
    here = _by_id(*_scene(make_job, AT[:2], moved=(0.0, 0.0, 14.0)))
    there = _by_id(*_scene(make_job, AT[:2]))

    assert here["bores-3.4-lid"].options[0].text.endswith("into an insert in box")
    assert all("insert in box" not in one.text for doubt in there.values() for one in doubt.options)


@pytest.mark.parametrize(
    ("at", "lid_mm"), [([(6, 6), (50, 6), (6, 24), (54, 24)], 3.4), (AT, 5.5)], ids=["another pattern", "an M5"]
)
def test_what_does_not_fit_over_the_inserts_tells_nothing(
    make_job: MakeJob, at: list[tuple[int, int]], lid_mm: float
) -> None:
    """A bore 4 mm aside, or bores for M5 (medium, ISO 273), are no lid of this box."""
    doubts = _by_id(*_scene(make_job, at, lid_mm=lid_mm))

    assert all("insert in box" not in one.text for doubt in doubts.values() for one in doubt.options)

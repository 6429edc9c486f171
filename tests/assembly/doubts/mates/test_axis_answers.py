"""Answers for bores of two sizes on one axis: a lid's screw cuts its thread in the box below it."""

from __future__ import annotations

from manifold3d import Manifold

from planner.assembly.doubts.bore_doubts import answers_by_size
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate, cylinder, solid_of

TEXT = (
    '[job]\nname = "x"\nmesh_unit = "mm"\n'
    '[[part]]\nname = "box"\nmesh = "box.stl"\nduty = "load"\n[[part]]\nname = "lid"\nmesh = "lid.stl"\nduty = "load"\n'
)


def test_a_lid_s_screws_cut_their_thread_in_the_box(make_job: MakeJob) -> None:
    """3.4 mm in the lid over 2.5 in the box, twice: two M3 with a pilot, no nuts, and no second row of screws."""
    at = [(10, 10), (50, 10)]
    box = bored_plate(60, 20, 12, [(x, y, 2.5, 96) for x, y in at])
    cover = Manifold.cube((60, 20, 4)).translate((0, 0, 12))
    for x, y in at:
        cover -= cylinder(3.4, 30, 96).translate((x, y, 0))
    lid = solid_of(cover, "lid")
    (answers,) = answers_by_size(make_job(TEXT, box=box, lid=lid), {"box": survey(box), "lid": survey(lid)})
    (screw,) = answers[0].hardware

    assert (screw.kind, screw.diameter_mm, screw.count, screw.nut) == ("machine-screw", 3.0, 2, None)
    assert (screw.joins, screw.bore_mm, screw.pilot_mm) == (("lid", "box"), 3.4, 2.5)
    assert answers[-1].name == "nothing"
    assert {(one.parts, one.bore_mm) for one in answers[-1].left_open} == {(("box",), 2.5), (("lid",), 3.4)}


def test_a_screw_through_two_parts_may_be_their_pivot(make_job: MakeJob) -> None:
    """5.2 mm in a tab and in an ear beside it: the screw holds them together, or they turn on it; both are offered."""
    tab = Manifold.cube((16, 16, 6)) - cylinder(5.2, 30, 96).translate((8, 8, -10))
    parts = {"box": solid_of(tab, "box"), "lid": solid_of(tab.translate((0, 0, 6.4)), "lid")}
    (answers,) = answers_by_size(make_job(TEXT, **parts), {name: survey(solid) for name, solid in parts.items()})
    by_name = {one.name: one.hardware for one in answers}

    assert (by_name["m5-screw"][0].fit, by_name["m5-screw"][0].nut) == ("sliding", "plain")
    assert (by_name["m5-pivot"][0].fit, by_name["m5-pivot"][0].nut) == ("turning", "locking")

"""Hexagonal pockets on a bore's axis speak for a screw, and for a nut that must fit its pocket at size."""

from __future__ import annotations

import math
from datetime import date

import pytest
from manifold3d import Manifold

from planner.assembly.doubts.bore_doubts import answered
from planner.finding import Verdict
from planner.mesh import Solid
from planner.plan import prepare
from planner.rules import check
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import cylinder, solid_of

TEXT = """[job]
name = "x"
mesh_unit = "mm"
material = "petg"
[[part]]
name = "a"
mesh = "a.stl"
duty = "load"
pose = [0, 0, -1]
"""


def trapped(flats_mm: float, bore_mm: float = 3.4, off_mm: float = 0.0) -> Solid:
    """Return a block with a bore and a pocket of that width across flats, 4 mm deep, at its upper end."""
    corners = flats_mm / math.cos(math.pi / 6)
    body = Manifold.cube((24, 24, 12), True) - cylinder(bore_mm, 40, 96).translate((0, 0, -20))
    return solid_of(body - cylinder(corners, 4, 6).translate((off_mm, 0, 2)), "a")


@pytest.mark.parametrize(
    ("flats_mm", "bore_mm", "label"),
    [(5.7, 3.4, "M3"), (7.2, 4.5, "M4"), (13.2, 8.4, "M8"), (10.4, 3.4, None)],  # ISO 4032: 5.5, 7, 13; 10 is M6's
)
def test_the_nut_of_the_screw_that_fits_the_bore_is_guessed(
    make_job: MakeJob, flats_mm: float, bore_mm: float, label: str | None
) -> None:
    """Across flats of ISO 4032; a pocket for another screw's nut speaks for none."""
    solid = trapped(flats_mm, bore_mm)
    ((_, answers),) = answered(make_job(TEXT, a=solid), {"a": survey(solid)})
    nuts = [one for one in answers[0].hardware if one.kind == "nut"]

    assert [(one.name.split()[0], one.count) for one in nuts] == ([(label, 1)] if label else [])
    assert answers[0].hardware[0].nut == (None if label else "plain")


def test_a_pocket_beside_the_axis_is_not_the_screws(make_job: MakeJob) -> None:
    """5 mm away lies another pocket."""
    solid = trapped(5.7, off_mm=5.0)
    ((_, answers),) = answered(make_job(TEXT, a=solid), {"a": survey(solid)})

    assert all(one.kind != "nut" for answer in answers for one in answer.hardware)


@pytest.mark.parametrize(("percent", "passes"), [(110.0, True), (85.0, False)])
def test_a_device_that_shrinks_is_no_go_with_work_while_its_nut_may_not_go_in(
    make_job: MakeJob, percent: float, passes: bool
) -> None:
    """5.7 mm across flats at 85 % print at 4.65 mm: no M3 nut of 5.5 mm goes in, which nobody may pass over."""
    text = (
        TEXT
        + '[[hardware]]\nname = "M3 screw in 3.4 mm"\nkind = "machine-screw"\ndiameter_mm = 3.0\njoins = ["a"]\nbore_mm = 3.4\n'
    )
    text += 'fit = "sliding"\ncount = 1\nguessed = ["kind", "diameter_mm", "fit"]\n'
    ready = prepare(make_job(text, a=trapped(5.7)), date(2026, 12, 1))
    found = [one for one in check(ready.bound, percent).findings if one.rule == "seat.tight"]

    assert [one.verdict for one in found if one.verdict is Verdict.HOLD] == ([] if passes else [Verdict.HOLD])


def test_fewer_pockets_than_bores_of_one_part_leave_the_number_of_screws_a_guess(make_job: MakeJob) -> None:
    """A lid with two bores over a block with one pocket: the second screw may go into something else."""
    block = trapped(5.7)
    lid = Manifold.cube((60, 24, 3), True) - cylinder(3.4, 40, 96).translate((-20, 0, -20))
    lid -= cylinder(3.4, 40, 96).translate((20, 0, -20))
    text = TEXT + '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "cover"\npose = [0, 0, -1]\n'
    job = make_job(text, a=block, b=solid_of(lid, "b"))
    ((_, answers),) = answered(job, {"a": survey(block), "b": survey(solid_of(lid, "b"))})

    assert [(one.kind, one.guessed) for one in answers[0].hardware] == [("machine-screw", ("count",)), ("nut", ())]

"""Claims: hardware takes the bore that is stated, or the nearest that would serve, and says so."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.assembly import claims_of
from planner.job import Hardware, Job
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, bored_plate, cylinder, solid_of

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\n'
    '[[hardware]]\nname = "screw"\nkind = "machine-screw"\ndiameter_mm = 3.0\njoins = ["a"]\ncount = 1\n{}'
)
PLATE = bored_plate(60, 40, 8, [(10, 10, 3.4, 96), (40, 20, 6.0, 96)])


def _job(make_job: MakeJob, more: str) -> Job:
    return make_job(TEXT.format(more), a=PLATE)


@pytest.mark.parametrize(("more", "drawn_mm", "guesses_n"), [("bore_mm = 6.0\n", 6.0, 1), ("", 3.4, 2)])
def test_the_stated_bore_or_the_nearest(make_job: MakeJob, more: str, drawn_mm: float, guesses_n: int) -> None:
    """bore_mm = 6 takes the bore of 6 mm; without it an M3 takes that of 3.4 mm, as a guess beside that of its fit."""
    found = claims_of(_job(make_job, more), {"a": survey(PLATE)})

    assert [claim.bore.drawn_diameter_mm for claim in found.claims] == [pytest.approx(drawn_mm, abs=0.02)]
    assert len(found.guesses) == guesses_n
    assert found.missing == ()


def test_what_claims_do_not_hang_on_asks_for_nothing_anew(make_job: MakeJob) -> None:
    """Another use of the same screws keeps the answer; each fact that claims are made from asks again."""
    job, its = _job(make_job, ""), {"a": survey(PLATE)}
    found = claims_of(job, its)
    used = replace(job, use=replace(job.use, load_n=33.0))
    others = (
        replace(job, hardware=(replace(job.hardware[0], bore_mm=6.0),)),
        replace(job, parts=(replace(job.parts[0], count=2),)),
        replace(job, limits=replace(job.limits, bore_match_percent=job.limits.cord_share)),
    )

    assert claims_of(used, its) is found
    assert all(claims_of(other, its) is not found for other in others)
    assert claims_of(job, {"a": replace(its["a"])}) is not found


def test_a_bore_that_is_not_there_is_a_hold_with_the_nearest(make_job: MakeJob) -> None:
    """20 mm is far from both: the finding names 6 mm, the nearest."""
    found = claims_of(_job(make_job, "bore_mm = 20.0\n"), {"a": survey(PLATE)})

    assert found.claims == ()
    assert found.missing[0].verdict.value == "hold"
    assert "6.00 mm" in found.missing[0].why
    assert isinstance(_job(make_job, "").hardware[0], Hardware)


@pytest.mark.parametrize(("strap", "slots_n"), [("", 1), ('[[strap]]\nname = "s"\npart = "a"\nwebbing_mm = 20.0\n', 0)])
def test_a_slot_that_alone_takes_the_screw_is_its_own(make_job: MakeJob, strap: str, slots_n: int) -> None:
    """A slot 3.4 mm wide for a screw of 3 mm; where webbing goes through the part, too, it is asked which it is for."""
    plate = Manifold.cube((60, 20, 5)) - Manifold.cube((20, 3.4, 9)).translate((20, 8.3, -2))
    for x in (20, 40):
        plate -= cylinder(3.4, 9, 64).translate((x, 10, -2))
    slotted = solid_of(plate, "a")
    found = claims_of(make_job(TEXT.format("bore_mm = 3.4\n") + strap, a=slotted), {"a": survey(slotted)})

    assert [one.slots for one in found.slots] == [(0,)] * slots_n
    assert [one.question for one in found.missing] == ["Does screw slide in the slot of a?"] * (1 - slots_n)

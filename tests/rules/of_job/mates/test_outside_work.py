"""Work on the outside of parts: it counts for its own peg or width alone, and what no part has is held."""

from __future__ import annotations

from datetime import date

from manifold3d import Manifold

from planner.assembly import CloseFit
from planner.finding import Verdict
from planner.job import HandWork
from planner.plan import prepare
from planner.rules import check
from planner.rules.of_job.mates.outside_work import filed_mm, sanded_mm
from planner.survey import Peg
from tests.conftest import MakeJob
from tests.shapes import solid_of

TEXT = '[job]\nname = "x"\nmesh_unit = "mm"\nmaterial = "petg"\n' + "".join(
    f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\nduty = "load"\n' for n in "ab"
)
BLOCK = solid_of(Manifold.cube((40.0, 30.0, 12.0), True), "a")
WORK = (
    '[[work]]\npart = "a"\nkind = "sand"\npegs = ["p1"]\nto_mm = 7.9\n'
    '[[work]]\npart = "a"\nkind = "sand"\ndrawn_mm = 5.0\nto_mm = 4.8\n'
    '[[work]]\npart = "a"\nkind = "file"\ninto = "b"\ndrawn_mm = 6.0\nto_mm = 5.9\n'
)


def _peg(name: str, diameter_mm: float) -> Peg:
    return Peg(id=name, diameter_mm=diameter_mm, length_mm=9.0, axis=(0.0, 0.0, 1.0), centre_mm=(0.0, 0.0, 0.0))


def _fit(inner: str, width_mm: float) -> CloseFit:
    outer = "b" if inner == "a" else "a"
    at = (0.0, 0.0, 0.0)
    return CloseFit(
        inner=inner, outer=outer, width_mm=width_mm, room_mm=0.1, way=(1.0, 0.0, 0.0), at_mm=at, sloped=False
    )


def test_work_counts_for_the_peg_or_the_width_that_it_names(make_job: MakeJob) -> None:
    """By name, by the size as drawn within 4 %, in the part that it lies in, and in the direction of a file."""
    job = make_job(TEXT + WORK, a=BLOCK, b=BLOCK)
    only = make_job(TEXT + WORK.replace("to_mm = 4.8\n", 'to_mm = 4.8\ninto = "b"\n'), a=BLOCK, b=BLOCK)

    assert job.works[0] == HandWork(part="a", kind="sand", to_mm=7.9, pegs=("p1",))
    assert [sanded_mm(job, "a", _peg("p1", 8.0), "b"), sanded_mm(job, "a", _peg("p2", 5.1), "b")] == [7.9, 4.8]
    assert [sanded_mm(job, "a", _peg("p2", 8.0), "b"), sanded_mm(job, "b", _peg("p1", 8.0), "a")] == [None, None]
    assert [sanded_mm(only, "a", _peg("p2", 5.1), into) for into in ("b", "c")] == [4.8, None]
    assert [filed_mm(job, _fit("a", 6.1)), filed_mm(job, _fit("a", 9.0)), filed_mm(job, _fit("b", 6.0))] == [
        5.9,
        None,
        None,
    ]


def test_work_on_what_no_part_has_is_held(make_job: MakeJob) -> None:
    """A peg that inspect does not list, a size that no peg has, and a width that lies between no faces: never silence."""
    job = make_job(TEXT + WORK, a=BLOCK, b=solid_of(Manifold.cube((40.0, 30.0, 12.0)).translate((0, 0, 40)), "b"))
    found = [f for f in check(prepare(job, date(2026, 12, 1)).bound, 100.0).findings if f.rule == "work.missing"]

    assert [finding.verdict for finding in found] == [Verdict.HOLD] * 3

"""One size: a screw is one size through all its bores, and its nut's seat goes with it."""

from __future__ import annotations

from datetime import date

import pytest
from manifold3d import Manifold

from planner.finding import Finding
from planner.job import Job
from planner.plan import prepare
from planner.rules import check
from planner.supplies import built
from tests.conftest import MakeJob
from tests.shapes import bored_plate, solid_of

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n'
    '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0.0, 0.0, -1.0]\n'
    '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "load"\npose = [0.0, 0.0, -1.0]\n'
    '[[hardware]]\nname = "screw"\nkind = "machine-screw"\ndiameter_mm = 3.0\nfit = "sliding"\njoins = ["a", "b"]\n'
    'bore_mm = 3.55\nstack_mm = 16.0\nnut = "plain"\n'
)


def _job(make_job: MakeJob, narrow_mm: float, wide_mm: float) -> Job:
    """Return two plates with a bore each."""
    return make_job(
        TEXT,
        a=bored_plate(40, 40, 8, [(20, 20, wide_mm, 96)]),
        b=bored_plate(40, 40, 8, [(20, 20, narrow_mm, 96)]),
    )


def _findings(job: Job, percent: float) -> tuple[Finding, ...]:
    """Return all findings at a size."""
    return check(prepare(job, date(2026, 10, 10)).bound, percent).findings


def test_a_sibling_is_drilled_for_the_size_that_a_loose_bore_takes(make_job: MakeJob) -> None:
    """At 105 %: 3.68 prints at 3.664 mm, over the 3.6 mm of ISO 273 coarse for M3, and takes an M4.

    3.45 prints at 3.42 mm, which an M3 would fit: it is drilled to 4.10 mm for the M4.
    """
    findings = _findings(_job(make_job, 3.45, 3.68), 105.0)
    work = {(f.rule, f.part): f for f in findings if f.work}

    assert set(work) == {("bore.loose", "a"), ("bore.tight", "b")}
    assert work["bore.tight", "b"].limit == pytest.approx(4.1)
    assert "every bore of this hardware must take M4 machine-screw" in work["bore.tight", "b"].why


def test_a_larger_size_that_one_bore_cannot_take_is_taken_in_none(make_job: MakeJob) -> None:
    """A bore whose axis lies 3.2 mm from the edge keeps 3.36 - 2.05 = 1.31 mm beside an M4; duty load needs 1.35 mm."""
    edge = bored_plate(40, 40, 8, [(3.2, 20, 3.45, 96)])
    job = make_job(TEXT, a=bored_plate(40, 40, 8, [(20, 20, 3.68, 96)]), b=edge)
    findings = _findings(job, 105.0)

    assert not any(f.work and f.work.kind == "stock" for f in findings)
    assert built(job, 1.05, findings).line("screw").size == "M3"


def test_a_nut_pocket_that_cannot_take_the_larger_nut_keeps_the_screw(make_job: MakeJob) -> None:
    """The pocket of an M3 nut, 6.58 mm over corners, takes no M4 nut of 7.0 mm across flats (ISO 4032): no M4."""
    b = Manifold.cube((40, 40, 8), True) - Manifold.cylinder(20, 1.725, 1.725, 96, True)
    b -= Manifold.cylinder(3, 6.58 / 2, 6.58 / 2, 6).translate((0, 0, 2))
    text = TEXT.replace('nut = "plain"\n', "") + (
        '[[hardware]]\nname = "nut"\nkind = "nut"\ndiameter_mm = 3.0\nbore_mm = 6.58\njoins = ["b"]\n'
    )
    job = make_job(text, a=bored_plate(40, 40, 8, [(20, 20, 3.68, 96)]), b=solid_of(b))
    findings = _findings(job, 105.0)
    device = built(job, 1.05, findings)

    assert [device.line(name).size for name in ("screw", "nut")] == ["M3", "M3"]
    assert all(f.verdict.passes for f in findings if f.rule == "seat.tight")

"""Stated work is judged like everything else: as go-with-work, or by its own finding where it is wrong."""

from __future__ import annotations

from datetime import date

import pytest

from planner.finding import Finding, Verdict
from planner.plan import Prepared, prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import bored_plate

TODAY = date(2026, 12, 1)
PART = (
    '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
    "pose = [0, 0, -1]\n"
)
PIN = (
    '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = {}\nfit = "turning"\njoins = ["a"]\n'
)


def _work(kind: str, to_mm: float, more: str = "") -> str:
    """Return one table of work on the first bore."""
    return f'[[work]]\npart = "a"\nbores = ["b1"]\nkind = "{kind}"\nto_mm = {to_mm}\n{more}'


def _of(ready: Prepared, rule: str) -> Finding:
    """Return the finding of a rule."""
    return next(f for f in check(ready.bound, 100.0).findings if f.rule == rule)


def _ready(make_job: MakeJob, text: str, bore_mm: float, *, y_mm: float = 20.0, deep: float | None = None) -> Prepared:
    """Return a plate of 60 x 40 x 10 with one bore, its axis ``y_mm`` from the edge, and a pin of 5 mm in it."""
    plate = bored_plate(60, 40, 10, [(30, y_mm, bore_mm, 96)], deep=deep)
    return prepare(make_job(PART + PIN.format(bore_mm) + text, a=plate), TODAY)


def test_a_drilled_bore_is_work_at_that_drill(make_job: MakeJob) -> None:
    """5.0 mm prints at 4.8; drilled to 5.3 a turning pin of 5 runs, and 5.3/2 from an axis 6 mm off leaves 3.35."""
    ready = _ready(make_job, _work("drill", 5.3), 5.0, y_mm=6.0)

    tight, edge = _of(ready, "bore.tight"), _of(ready, "bore.edge")
    assert tight.verdict is Verdict.GO_WITH_WORK
    assert tight.remedy.startswith("drill to 5.3 mm")
    assert edge.measured == pytest.approx(6.0 - 2.65, abs=0.02)
    assert _of(ready, "work.done").verdict is Verdict.GO
    assert tight.work is not None
    assert tight.work.to_mm == pytest.approx(5.3)


def test_too_wide_a_drill_is_found_by_what_it_spoils(make_job: MakeJob) -> None:
    """Drilled to 7.8 a pin of 5 rattles, and an axis 5 mm from the edge keeps 1.1 mm where 1.35 are needed."""
    ready = _ready(make_job, _work("drill", 7.8), 5.0, y_mm=5.0)

    assert "has after its work 7.8" in _of(ready, "bore.loose").why
    assert _of(ready, "bore.loose").verdict is not Verdict.GO
    assert _of(ready, "bore.edge").verdict is Verdict.NO_GO
    assert _of(ready, "bore.edge").measured == pytest.approx(1.1, abs=0.02)


def test_a_bush_needs_a_wall(make_job: MakeJob) -> None:
    """Bored 5.2 in a bore that prints at 6.3 it has 0.55 mm, less than 0.8; drilled to 6.8 first it has 0.8."""
    thin = _ready(make_job, _work("bush", 5.2), 6.5)
    good = _ready(make_job, _work("drill", 6.8) + _work("bush", 5.2), 6.5)

    assert _of(thin, "work.done").verdict is Verdict.NO_GO
    assert _of(good, "work.done").verdict.passes
    assert _of(good, "bore.loose").verdict is Verdict.GO_WITH_WORK
    loose = _of(good, "bore.loose")
    assert "glue in a bush bored 5.2 mm" in loose.remedy
    assert loose.work is not None
    assert (loose.work.kind, loose.work.outside_mm, loose.work.bored_mm) == ("bush", 6.8, 5.2)


def test_a_drill_stays_above_the_floor(make_job: MakeJob) -> None:
    """A blind bore 6 mm deep may be drilled to its depth; deeper is a hold, as what lies below was not measured."""
    good = _ready(make_job, _work("drill", 5.2, "depth_mm = 6.0\n"), 5.0, deep=6.0)
    deep = _ready(make_job, _work("drill", 5.2, "depth_mm = 8.0\n"), 5.0, deep=6.0)

    assert check(good.bound, 100.0).verdict is Verdict.GO_WITH_WORK
    assert _of(deep, "work.done").verdict is Verdict.HOLD


def test_work_on_a_bore_that_is_not_there_is_a_hold(make_job: MakeJob) -> None:
    """The part has b1 alone."""
    text = '[[work]]\npart = "a"\nbores = ["b7"]\nkind = "drill"\nto_mm = 5.3\n'

    assert _of(_ready(make_job, text, 5.4), "work.missing").verdict is Verdict.HOLD


def test_idle_work_is_a_caution(make_job: MakeJob) -> None:
    """5.5 mm prints at 5.3: a drill of 5.2 takes nothing away."""
    found = _of(_ready(make_job, _work("drill", 5.2), 5.5), "work.done")

    assert found.verdict is Verdict.GO
    assert "changes nothing" in found.caution

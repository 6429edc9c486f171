"""Bearings are bound to their pockets, and to the screw or pin on their axis in the same part."""

from __future__ import annotations

from datetime import date

from planner.finding import Verdict
from planner.plan import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'
    '[[hardware]]\nname = "bearing"\nkind = "bearing"\ndiameter_mm = 8.0\nsize_mm = 22.0\nbore_mm = 22.25\njoins = ["a"]\n'
    '[[hardware]]\nname = "axle"\nkind = "dowel-pin"\ndiameter_mm = {axle}\nbore_mm = {hole}\nfit = "{fit}"\njoins = ["a"]\n'
)


def _housing(hole_mm: float, deep_mm: float) -> Manifold:
    """Return a block with a pocket for a bearing of 22 mm, and a bore on its axis below."""
    body = Manifold.cube((40.0, 40.0, 20.0)) - cylinder(hole_mm, 22.0, 96).translate((20.0, 20.0, -1.0))
    return body - cylinder(22.25, 20.0, 128).translate((20.0, 20.0, 20.0 - deep_mm))


def test_a_bearing_is_judged_by_its_pocket_and_its_shaft(make_job: MakeJob) -> None:
    """8 x 22 x 7 (ISO 15): a pocket of 7 mm and an axle of 8 pass; one of 3 mm tips, and an axle of 6 rattles in it."""

    def found(hole_mm: float, deep_mm: float, axle_mm: float) -> dict[str, Verdict]:
        text = TEXT.format(axle=axle_mm, hole=hole_mm, fit="sliding")
        ready = prepare(make_job(text, a=solid_of(_housing(hole_mm, deep_mm))), date(2026, 10, 10))
        return {f.rule: f.verdict for f in check(ready.bound, 100.0).findings if f.rule.startswith("bearing.")}

    assert found(8.4, 7.0, 8.0) == {"bearing.deep": Verdict.GO, "bearing.shaft": Verdict.GO}
    assert found(6.4, 3.0, 6.0) == {"bearing.deep": Verdict.HOLD, "bearing.shaft": Verdict.HOLD}

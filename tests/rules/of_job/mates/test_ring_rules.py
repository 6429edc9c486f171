"""A printed shaft on the axis of a bought bearing is judged in it, wherever it is known from; nothing known is asked."""

from __future__ import annotations

from datetime import date

import pytest

from planner.finding import Finding, Verdict
from planner.plan import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n' + "".join(
    f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\nduty = "shell"\npose = [0, 0, -1]\n' for n in "ab"
)
BEARING = (
    '[[hardware]]\nname = "ring"\nkind = "bearing"\ndiameter_mm = 8.0\nsize_mm = 22.0\nbore_mm = 22.25\njoins = ["a"]\n'
)
WASHER = (
    '[[hardware]]\nname = "ring"\nkind = "washer"\ndiameter_mm = 8.0\nsize_mm = 22.0\nbore_mm = 22.25\njoins = ["a"]\n'
)
PIN = '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = 8.0\nbore_mm = 3.0\njoins = ["b"]\n'
HOUSING = Manifold.cube((40, 40, 10), True) - cylinder(22.25, 20.0, 96).translate((0, 0, -2)) - cylinder(14.0, 40.0, 96)


def _judged(make_job: MakeJob, text: str, shaft: Manifold, percent: float) -> list[Finding]:
    ready = prepare(make_job(text, a=solid_of(HOUSING, "a"), b=solid_of(shaft, "b")), date(2026, 10, 10))
    found = check(ready.bound, percent).findings
    return [f for f in found if f.rule in ("bearing.peg", "bearing.shaft")]


@pytest.mark.parametrize(
    ("more", "off_mm", "percent", "verdict"),
    [
        (BEARING, 0.0, 100.0, Verdict.GO),
        (BEARING, 0.0, 85.0, Verdict.HOLD),
        (BEARING, 0.0, 130.0, Verdict.NO_GO),
        (BEARING, 60.0, 130.0, Verdict.HOLD),
        (WASHER, 0.0, 130.0, Verdict.NO_GO),
        (WASHER, 0.0, 85.0, Verdict.GO),
    ],
)
def test_the_shaft_in_place_is_sure_and_its_size_alone_is_a_question(
    make_job: MakeJob, more: str, off_mm: float, percent: float, verdict: Verdict
) -> None:
    """A shaft of 8 mm in a bearing 8 x 22 x 7 (ISO 15), drawn there or beside it; a washer need not be filled."""
    (found,) = _judged(make_job, TEXT + more, cylinder(8.0, 40.0, 64).translate((off_mm, 0, -20)), percent)

    assert (found.rule, found.part, found.feature) == ("bearing.peg", "b", "p1 in ring")
    assert found.verdict is verdict


def test_a_shaft_with_a_flat_is_one_too(make_job: MakeJob) -> None:
    """8 mm with a flat 3 mm off its axis, at 85 %: 6.8 mm in a bore of 8 rattle."""
    flat = Manifold.cube((20, 20, 99), True).translate((13, 0, 0))
    (found,) = _judged(make_job, TEXT + BEARING, cylinder(8.0, 40.0, 64).translate((0, 0, -20)) - flat, 85.0)

    assert (found.rule, found.verdict) == ("bearing.peg", Verdict.HOLD)


@pytest.mark.parametrize(("more", "rules"), [("", ["bearing.shaft"]), (PIN, [])])
def test_a_bearing_that_nothing_is_known_to_go_through_is_asked_about(
    make_job: MakeJob, more: str, rules: list[str]
) -> None:
    """No peg has its size and none is drawn there; a bought pin of 8 mm in any part is enough to be known."""
    found = _judged(make_job, TEXT + BEARING + more, Manifold.cube((10, 10, 30)).translate((60, 0, 0)), 100.0)

    assert [f.rule for f in found] == rules
    assert all(f.verdict is Verdict.HOLD and "What goes through ring" in f.question for f in found)


def test_a_part_that_keeps_its_size_fits_again(make_job: MakeJob) -> None:
    """The remedy that is told, scale = 100 for the shaft's part, settles it at 130 %."""
    own = TEXT.replace('name = "b"\n', 'name = "b"\nscale = 100.0\n') + BEARING
    (found,) = _judged(make_job, own, cylinder(8.0, 40.0, 64).translate((0, 0, -20)), 130.0)

    assert found.verdict is Verdict.GO

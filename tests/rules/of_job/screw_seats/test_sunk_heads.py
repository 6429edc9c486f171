"""Seats for heads of screws: they shrink with the part, and the head does not."""

from __future__ import annotations

from datetime import date

import pytest

from planner.finding import Finding, Verdict
from planner.mesh import Solid
from planner.plan import prepare, proved_remedies
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import cuboid, cylinder, solid_of

TODAY = date(2026, 12, 1)
TEXT = """[job]
name = "x"
mesh_unit = "mm"
material = "petg"
[size]
percent = {percent}
[[part]]
name = "a"
mesh = "a.stl"
duty = "load"
pose = [0, 0, -1]
[[part]]
name = "b"
mesh = "b.stl"
duty = "load"
pose = [0, 0, -1]
[[hardware]]
name = "screw"
kind = "machine-screw"
diameter_mm = 3.0
joins = ["a", "b"]
bore_mm = 3.4
fit = "sliding"
count = 2
nut = "plain"
"""
OPEN = '[[open]]\nname = "steps"\nparts = ["a"]\nbore_mm = 6.5\n'


def _sunk(seat_mm: float = 6.5) -> Solid:
    """Return a plate of 60 x 20 x 10 with two bores of 3.4 mm, each with a seat 3.4 mm deep."""
    body = cuboid(60, 20, 10).manifold
    for x in (10, 50):
        body -= cylinder(3.4, 40, 96).translate((x, 10, -5)) + cylinder(seat_mm, 40, 96).translate((x, 10, 6.6))
    return solid_of(body, "a")


def _plain() -> Solid:
    """Return the plate under it."""
    body = cuboid(60, 20, 6).manifold
    for x in (10, 50):
        body -= cylinder(3.4, 40, 96).translate((x, 10, -5))
    return solid_of(body, "b")


def _seats(make_job: MakeJob, percent: float, more: str = "", seat_mm: float = 6.5) -> list[Finding]:
    """Return what is said about the seats at a size."""
    ready = prepare(make_job(TEXT.format(percent=percent) + more, a=_sunk(seat_mm), b=_plain()), TODAY)
    found = check(ready.bound, percent).findings
    return [one for one in found if one.rule == "bore.tight" and one.feature.startswith(("head", "washer"))]


@pytest.mark.parametrize(
    ("percent", "verdict"), [(100.0, Verdict.GO), (90.0, Verdict.GO), (88.0, Verdict.GO_WITH_WORK)]
)
def test_a_seat_takes_its_head_down_to_the_size_by_hand(make_job: MakeJob, percent: float, verdict: Verdict) -> None:
    """6.5 s - 0.2 mm must reach 5.5 + 0.1 mm (M3 of ISO 4762, from memory): from 89.2 % on."""
    found = _seats(make_job, percent)

    assert [one.verdict for one in found] == [verdict, verdict]
    assert {round(one.limit or 0.0, 3) for one in found} == {5.6}
    assert found[0].measured == pytest.approx(6.5 * percent / 100 - 0.2, abs=0.01)


def test_a_washer_under_the_head_asks_for_more(make_job: MakeJob) -> None:
    """M3 of ISO 7089 is 7 mm wide: a seat of 6.5 mm never took it."""
    (one, _) = _seats(make_job, 100.0, "washers = 1\n")

    assert one.feature.startswith("washer of screw")
    assert one.limit == pytest.approx(7.1)
    assert one.verdict is Verdict.GO_WITH_WORK


@pytest.mark.parametrize(("more", "seat_mm"), [(OPEN, 6.5), ("", 12.0)])
def test_a_step_that_takes_no_head_is_no_seat(make_job: MakeJob, more: str, seat_mm: float) -> None:
    """One that the job lists as open, and one far wider than a head, such as a bearing's."""
    assert _seats(make_job, 70.0, more, seat_mm) == []


def test_the_remedy_drills_both_seats_wider_and_no_deeper(make_job: MakeJob) -> None:
    """A depth stop keeps what the head presses on: 3.4 mm at 70 % are 2.38."""
    job = make_job(TEXT.format(percent=70) + "", a=_sunk(), b=_plain())
    found = {remedy.text for remedy in proved_remedies(prepare(job, TODAY)).found}

    assert "drill b2 and b4 of a to 5.6 mm, depth stop at 2.3 mm" in found

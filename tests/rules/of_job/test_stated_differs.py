"""A size that the job states and the mesh contradicts is a hold with both numbers and a question."""

from __future__ import annotations

from datetime import date

import pytest

from planner.finding import Finding, Verdict
from planner.mesh import Solid
from planner.plan.prepare import prepare
from planner.rules import check
from sample_parts.solids import slot_outline
from tests.conftest import MakeJob
from tests.shapes import Manifold, bored_plate, cuboid, cylinder, solid_of

HEAD = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
STRAP = '[[strap]]\nname = "strap"\npart = "a"\nwebbing_mm = 25.0\nslot_mm = {mm}\n'
CORD = '[[cord]]\nname = "cord"\npart = "a"\ndiameter_mm = 1.2\nchannel_mm = {mm}\n'
NUT = '[[hardware]]\nname = "nut"\nkind = "nut"\ndiameter_mm = 3.0\nbore_mm = {mm}\njoins = ["a"]\n'
WASHER = '[[hardware]]\nname = "washer"\nkind = "washer"\ndiameter_mm = 3.0\nbore_mm = {mm}\njoins = ["a"]\n'
GAP = '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "cover"\n[[gap]]\nbetween = ["a", "b"]\ndrawn_mm = {mm}\n'
TODAY = date(2026, 12, 1)
SLOTTED = solid_of(
    Manifold.cube((80, 40, 3), True) - Manifold.extrude(slot_outline(26, 4, 16), 10).translate((0, 0, -5))
)
CHANNEL = bored_plate(30, 20, 20, [(15, 10, 2.0, 48)])
POCKET = solid_of(Manifold.cube((20, 20, 8)) - cylinder(6.6, 6, 6).translate((10, 10, 4)))
SUNK = bored_plate(20, 20, 8, [(10, 10, 8.0, 48)], deep=3)
TUBE = solid_of(cylinder(30, 20, 96) - cylinder(12.8, 22, 96).translate((0, 0, -1)))
ROD = solid_of(cylinder(12.0, 20, 96))


def _of(make_job: MakeJob, text: str, *rules: str, **solids: Solid) -> list[Finding]:
    """Return the findings of some rules at the drawn size."""
    found = check(prepare(make_job(HEAD + text, **solids), TODAY).bound, 100.0).findings
    return [finding for finding in found if finding.rule in rules]


@pytest.mark.parametrize(
    ("text", "stated", "measured", "right", "tight", "solid"),
    [
        (STRAP, 30.0, 26.0, 26.0, "slot.tight", SLOTTED),
        (STRAP, 22.0, 26.0, 26.4, "slot.tight", SLOTTED),
        (CORD, 3.0, 2.0, 2.0, "channel.tight", CHANNEL),
        (CORD, 1.6, 2.0, 2.05, "channel.tight", CHANNEL),
        (NUT, 7.4, 6.6, 6.6, "seat.tight", POCKET),
        (WASHER, 9.5, 8.0, 8.1, "seat.tight", SUNK),
    ],
)
def test_a_contradiction_holds_with_both_numbers(
    make_job: MakeJob, text: str, stated: float, measured: float, right: float, tight: str, solid: Solid
) -> None:
    """Nothing is judged by either number until a person has said which is right; within 4 % the mesh is judged."""
    (held,) = _of(make_job, text.format(mm=stated), "stated.differs", tight, a=solid)
    (judged,) = _of(make_job, text.format(mm=right), "stated.differs", tight, a=solid)

    assert (held.rule, held.verdict) == ("stated.differs", Verdict.HOLD)
    assert held.measured == pytest.approx(measured, abs=0.01)
    assert held.limit == stated
    assert f"{stated:g}" in held.question
    assert f"{measured:.2f}" in held.question
    assert judged.rule == tight
    assert judged.measured is not None
    assert judged.measured <= measured + 0.01


@pytest.mark.parametrize("text", [STRAP, CORD, NUT, WASHER])
def test_an_opening_that_the_mesh_has_not_holds(make_job: MakeJob, text: str) -> None:
    """A plain block has no slot, channel or pocket, whatever the job states."""
    (held,) = _of(
        make_job,
        text.format(mm=6.0),
        "stated.differs",
        "slot.tight",
        "channel.tight",
        "seat.tight",
        a=cuboid(40, 30, 10),
    )

    assert (held.rule, held.verdict, held.measured) == ("stated.differs", Verdict.HOLD, None)
    assert held.question.startswith("Where is")


def test_an_opening_that_was_not_recognised_may_be_the_one_stated(make_job: MakeJob) -> None:
    """A square opening is neither slot nor channel: the size stated is judged and listed as taken."""
    square = solid_of(Manifold.cube((60, 40, 10)) - Manifold.cube((28, 28, 12)).translate((16, 6, -1)))
    (found,) = _of(make_job, STRAP.format(mm=28.0), "stated.differs", "slot.tight", a=square)

    assert (found.rule, found.measured) == ("slot.tight", 28.0)


@pytest.mark.parametrize(("stated", "held"), [(0.4, False), (0.42, False), (0.3, True), (0.6, True)])
def test_a_gap_between_parts_in_place_is_compared(make_job: MakeJob, stated: float, held: bool) -> None:
    """A rod of 12 in a tube of 12.8 runs with 0.4 a side."""
    found = _of(make_job, GAP.format(mm=stated), "stated.differs", "gap.tight", a=TUBE, b=ROD)

    assert [f.rule for f in found] == ["stated.differs" if held else "gap.tight"]


def test_a_gap_between_parts_that_overlap_as_drawn_is_not_compared(make_job: MakeJob) -> None:
    """Parts drawn about their own origin say nothing of the gap: the one stated is judged."""
    found = _of(make_job, GAP.format(mm=0.4), "stated.differs", "gap.tight", a=cuboid(20, 20, 10), b=cuboid(18, 18, 8))

    assert [f.rule for f in found] == ["gap.tight"]


def test_another_cords_channel_is_not_the_one_meant(make_job: MakeJob) -> None:
    """Two channels of 2 and 3 mm: the cord stated at 4 is asked about the 3, for the 2 belongs to the other cord."""
    both = bored_plate(40, 20, 20, [(10, 10, 2.0, 48), (30, 10, 3.0, 48)])
    other = CORD.format(mm=2.0).replace('"cord"', '"other"')
    found = _of(make_job, CORD.format(mm=2.4) + other, "stated.differs", a=both)

    assert [f.measured for f in found] == [pytest.approx(3.0, abs=0.01)]

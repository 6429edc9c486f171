"""Drawn in place: parts that share a frame, told by common axes and by not overlapping."""

from __future__ import annotations

import pytest

from planner.assembly import claims_of
from planner.assembly.drawn.drawn_in_place import drawn_in_place, overlap_as_drawn
from planner.mesh import Solid
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate, cylinder, solid_of

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n'
    + "".join(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\n' for name in "ab")
    + '[[hardware]]\nname = "screw"\nkind = "machine-screw"\ndiameter_mm = 3.0\njoins = ["a", "b"]\ncount = 1\n'
    "bore_mm = 3.4\n"
)
LOWER = bored_plate(40, 30, 8, [(10, 10, 3.4, 96)])


def _groups(make_job: MakeJob, upper: Solid) -> tuple[frozenset[str], ...]:
    """Return the groups of two plates joined by a screw."""
    job = make_job(TEXT, a=LOWER, b=upper)
    solids = {"a": LOWER, "b": upper}
    claims = claims_of(job, {name: survey(solid) for name, solid in solids.items()}).claims
    return drawn_in_place(job, solids, claims)


def test_plates_on_each_other_with_one_axis_are_in_place(make_job: MakeJob) -> None:
    """One plate on the other, bores in line: a group of two."""
    assert _groups(make_job, LOWER.moved((0.0, 0.0, 8.0))) == (frozenset({"a", "b"}),)


def test_links_of_a_chain_under_one_screw_s_name_are_in_place(make_job: MakeJob) -> None:
    """Three links of 60 mm with bores 40 mm apart, each on the end of the one before: one group, drawn 0.3 mm apart."""
    link = bored_plate(60, 20, 8, [(10, 10, 3.4, 96), (50, 10, 3.4, 96)])
    solids = {name: link.moved((40.0 * n, 0.0, 8.3 * n)) for n, name in enumerate("abc")}
    text = TEXT.replace('joins = ["a", "b"]\ncount = 1', 'joins = ["a", "b", "c"]\ncount = 2')
    job = make_job(text + '[[part]]\nname = "c"\nmesh = "c.stl"\n', **solids)
    claims = claims_of(job, {name: survey(solid) for name, solid in solids.items()}).claims

    assert drawn_in_place(job, solids, claims) == (frozenset("abc"),)
    aside = {**solids, "c": link}
    assert drawn_in_place(job, aside, claims_of(job, {n: survey(s) for n, s in aside.items()}).claims) == ()


def test_an_overlap_says_how_much_and_where(make_job: MakeJob) -> None:
    """Plates 40 x 30 mm drawn 1 mm into each other share 1,200 mm3 less the bore's 9.1, in the middle at z = 7.5."""
    job, upper = make_job(TEXT, a=LOWER, b=LOWER), LOWER.moved((0.0, 0.0, 7.0))
    solids = {"a": LOWER, "b": upper}
    claims = claims_of(job, {name: survey(solid) for name, solid in solids.items()}).claims
    found = overlap_as_drawn(job, solids, claims, ["b"])

    assert found is not None
    assert found.mm3 == pytest.approx(1200.0 - 9.08, rel=1e-3)
    assert found.told == "a and b overlap by 1191 mm³ as drawn (at [20.0, 15.0, 7.5])"
    assert overlap_as_drawn(job, {"a": LOWER, "b": LOWER.moved((0.0, 0.0, 8.0))}, claims, ["b"]) is None


def test_plates_that_overlap_or_are_aside_are_not(make_job: MakeJob) -> None:
    """Both round one origin overlap; moved aside, their bores share no axis."""
    assert _groups(make_job, LOWER) == ()
    assert _groups(make_job, LOWER.moved((60.0, 0.0, 0.0))) == ()


@pytest.mark.parametrize(("pin_mm", "across_mm", "shown"), [(3.2, 0.0, True), (3.5, 0.0, True), (3.2, 60.0, False)])
def test_a_printed_pin_that_lies_in_its_bores_shows_it(
    make_job: MakeJob, pin_mm: float, across_mm: float, shown: bool
) -> None:
    """Plates 12 mm apart, too far for a washer, with the printed pin drawn in both, free or pressed: all three.

    A pin that is drawn beside them shows nothing.
    """
    pin = solid_of(cylinder(pin_mm, 28.0, 96).translate((10.0 + across_mm, 10.0, 0.0)), "pin")
    upper = LOWER.moved((0.0, 0.0, 20.0))
    text = TEXT.replace("machine-screw", "dowel-pin") + 'printed = "pin"\nfit = "held"\n'
    job = make_job(text + '[[part]]\nname = "pin"\nmesh = "pin.stl"\n', a=LOWER, b=upper, pin=pin)
    solids = {"a": LOWER, "b": upper, "pin": pin}
    claims = claims_of(job, {name: survey(solid) for name, solid in solids.items()}).claims

    assert drawn_in_place(job, solids, claims) == ((frozenset(solids),) if shown else ())

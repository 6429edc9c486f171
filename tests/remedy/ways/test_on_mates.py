"""What goes into another printed part: reamed for, sanded or filed; the edit is in words that the job file takes."""

from __future__ import annotations

from datetime import date

import pytest
from manifold3d import Manifold

from planner.finding import Finding, Verdict
from planner.job import Job, with_edits
from planner.plan import prepare, proved_remedies
from planner.remedy import Remedy
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import cylinder, solid_of

TODAY = date(2026, 12, 1)
TEXT = '[job]\nname = "x"\nmesh_unit = "mm"\nmaterial = "petg"\n' + "".join(
    f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\nduty = "load"\n' for n in "ab"
)
JOINT = '[[joint]]\nbetween = ["b", "a"]\nhow = "{}"\n'
BLOCK = Manifold.cube((40.0, 30.0, 12.0), True)


def _cured(job: Job, rule: str) -> tuple[Remedy, list[Finding]]:
    """Return the remedy of a rule's finding, and what is found once it is written into the job."""
    remedies = proved_remedies(prepare(job, TODAY))
    (remedy,) = (one for one in remedies.found if any(told[0] == rule for told in one.settles))
    after = prepare(with_edits(job, remedy.does), TODAY)
    return remedy, list(check(after.bound, 100.0).findings)


def _verdicts(found: list[Finding], rule: str) -> set[Verdict]:
    return {finding.verdict for finding in found if finding.rule == rule}


def test_a_tenon_too_wide_is_filed_not_printed_larger(make_job: MakeJob) -> None:
    """6.00 mm in a mortise of 6.10, which prints at 5.90 or less: filed to the room that is there, and listed once."""
    tenon = Manifold.cube((30.0, 30.0, 6.0), True).translate((0, 0, -9.2)) + Manifold.cube((6.0, 9.0, 20.0), True)
    mortise = BLOCK - Manifold.cube((6.1, 9.8, 30.0), True)
    job = make_job(TEXT + JOINT.format("pressed"), a=solid_of(tenon, "a"), b=solid_of(mortise, "b"))
    remedy, after = _cured(job, "between.tight")

    assert remedy.kind == "sand"
    assert remedy.text.startswith("file a, drawn 6 mm wide in b, to a width of 5.")
    assert _verdicts(after, "between.tight") == {Verdict.GO}
    assert _verdicts(after, "work.done") == {Verdict.GO_WITH_WORK}


def test_a_bore_is_reamed_for_the_peg_that_turns_in_it(make_job: MakeJob) -> None:
    """8.0 in 8.2 mm, which prints at 8.00: turning needs 0.20 mm, so a reamer of 8.2 mm."""
    pegged = Manifold.cube((30.0, 30.0, 6.0), True).translate((0, 0, -9.2)) + cylinder(8.0, 20.0, 96).translate(
        (0, 0, -8)
    )
    bored = BLOCK - cylinder(8.2, 40.0, 96).translate((0, 0, -20))
    job = make_job(TEXT + JOINT.format("turns"), a=solid_of(pegged, "a"), b=solid_of(bored, "b"))
    remedy, after = _cured(job, "peg.tight")

    assert remedy.kind == "ream"
    assert remedy.does[0].put["to_mm"] == pytest.approx(8.2)
    assert _verdicts(after, "peg.tight") == {Verdict.GO}


def test_a_shaft_a_little_too_thick_for_its_bearing_is_sanded(make_job: MakeJob) -> None:
    """8.2 mm in a bearing of 8 x 22 x 7 (ISO 15): sanded to 8 mm, which the job then says of that peg alone."""
    shaft = Manifold.cube((30.0, 30.0, 6.0), True).translate((0, 0, -20)) + cylinder(8.2, 40.0, 96).translate(
        (0, 0, -20)
    )
    seat = BLOCK - cylinder(22.25, 7.0, 96).translate((0, 0, -1.0)) - cylinder(14.0, 40.0, 96).translate((0, 0, -20))
    bearing = (
        '[[hardware]]\nname = "bearing"\nkind = "bearing"\ndiameter_mm = 8.0\nsize_mm = 22.0\nbore_mm = 22.25\n'
        'fit = "held"\njoins = ["b"]\n[[open]]\nname = "through"\nparts = ["b"]\nbore_mm = 14.0\n'
    )
    job = make_job(TEXT + bearing, a=solid_of(shaft, "a"), b=solid_of(seat, "b"))
    remedy, after = _cured(job, "bearing.peg")

    assert remedy.kind == "sand"
    assert remedy.does[0].put["pegs"]
    assert remedy.text.endswith("to 8 mm")
    assert _verdicts(after, "bearing.peg") == {Verdict.GO}
    assert _verdicts(after, "work.done") == {Verdict.GO_WITH_WORK}


FLAT = Manifold.cube((20.0, 20.0, 200.0), True)


def _with_flat(diameter_mm: float, flat_mm: float, long_mm: float) -> Manifold:
    """Return a round with a flat at so much from its axis, about the origin."""
    return cylinder(diameter_mm, long_mm, 96).translate((0, 0, -long_mm / 2)) - FLAT.translate((flat_mm + 10.0, 0, 0))


def test_a_shaft_with_a_flat_is_sanded_where_it_lies_in_the_part_that_is_tight(make_job: MakeJob) -> None:
    """6.0 in 6.10, which prints at 5.90, though nobody says what the knob does: a reamer widens no bore with a flat.

    The wheel, at 6.25, would be loose on a shaft that is thinner all along: 6.05 - 5.89 is over 0.1 mm of play.
    """
    knob = Manifold.cube((30.0, 30.0, 12.0), True).translate((0, 0, -12)) - _with_flat(6.1, 2.05, 60.0)
    wheel = Manifold.cube((26.0, 26.0, 12.0), True).translate((0, 0, 12)) - _with_flat(6.25, 2.125, 60.0)
    guessed = '[[part]]\nname = "c"\nmesh = "c.stl"\nduty = "cover"\nguessed = ["duty"]\n'
    job = make_job(
        TEXT + guessed + JOINT.format("pressed") + JOINT.format("pressed").replace('"b"', '"c"'),
        a=solid_of(_with_flat(6.0, 2.0, 50.0), "a"),
        b=solid_of(wheel, "b"),
        c=solid_of(knob, "c"),
    )
    remedy, after = _cured(job, "peg.tight")

    assert remedy.text == "sand p1 of a to 5.89 mm where it lies in c, its flat as well"
    assert _verdicts(after, "peg.tight") == {Verdict.GO}
    assert _verdicts(after, "work.done") == {Verdict.GO_WITH_WORK}


def test_no_hand_reams_a_wide_bore_far(make_job: MakeJob) -> None:
    """Over 13 mm there is no reamer for a hand, and sandpaper takes off 0.5 mm: 20.0 in 19.8 mm needs 0.6 mm."""
    pegged = Manifold.cube((40.0, 30.0, 6.0), True).translate((0, 0, -9.2)) + cylinder(20.0, 20.0, 96).translate(
        (0, 0, -8)
    )
    bored = BLOCK - cylinder(19.8, 40.0, 96).translate((0, 0, -20))
    job = make_job(TEXT + JOINT.format("turns"), a=solid_of(pegged, "a"), b=solid_of(bored, "b"))
    remedies = proved_remedies(prepare(job, TODAY))

    assert not [one for one in remedies.found if one.kind in ("ream", "sand")]

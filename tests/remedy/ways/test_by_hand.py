"""Ways by hand: drill, ream, bush, or take out work that spoils."""

from __future__ import annotations

from datetime import date

import pytest

from planner.plan import Prepared, prepare, proved_remedies
from planner.remedy import Remedy
from tests.conftest import MakeJob
from tests.remedy.devices import pinned
from tests.shapes import cylinder, solid_of


def _first(found: tuple[Remedy, ...]) -> Remedy:
    """Return the only remedy."""
    (remedy,) = found
    return remedy


def test_a_tight_bore_is_drilled_in_steps_of_drills(make_job: MakeJob) -> None:
    """5.0 prints at 4.8 and a turning pin of 5 needs 5.2: a drill of 5.2 mm, three minutes for each bore."""
    remedy = _first(proved_remedies(pinned(make_job, 5.0, 5.0, y_mm=(10.0, 20.0))).found)

    assert remedy.text == "drill b1 and b2 of a to 5.2 mm"
    assert remedy.costs.minutes_min == pytest.approx(6.0)
    assert remedy.does[0].put["to_mm"] == pytest.approx(5.2)


def test_a_blind_bore_names_its_depth_stop(make_job: MakeJob) -> None:
    """6 mm deep: the drill stops there, so the floor of 4 mm stays."""
    remedy = _first(proved_remedies(pinned(make_job, 5.0, 5.0, deep=6.0)).found)

    assert "depth stop at 6 mm" in remedy.text
    assert remedy.does[0].put["depth_mm"] == pytest.approx(6.0)


def test_where_drilling_leaves_too_little_a_thinner_pin_is_taken(make_job: MakeJob) -> None:
    """3.6 mm from the edge, 5.2/2 leave 1.00 mm of the 1.35 that duty load needs; a pin of 4 goes in as it prints."""
    remedy = _first(proved_remedies(pinned(make_job, 5.0, 4.6, y_mm=(3.75,))).found)

    assert remedy.kind == "hardware"
    assert remedy.text == "take 4 mm dowel-pin for pin instead of 5 mm"
    assert any(
        "it leaves 1.15 mm beside" in refused.why and "1.35 mm is needed" in refused.why for refused in remedy.refused
    )


def test_a_loose_bore_that_no_stock_fits_gets_a_bush(make_job: MakeJob) -> None:
    """10.0 prints at 9.8: too wide for the largest pin of 8 mm with 0.6 of play, wide enough for a bush of 0.8 mm."""
    remedy = _first(proved_remedies(pinned(make_job, 8.0, 10.4)).found)

    assert remedy.kind == "bush"
    assert [edit.put["kind"] for edit in remedy.does] == ["bush"]


def test_work_that_spoils_is_taken_out(make_job: MakeJob) -> None:
    """A drill of 9.4 mm makes a pin of 8 rattle in a bore that would have taken it."""
    work = '[[work]]\npart = "a"\nbores = ["b1"]\nkind = "drill"\nto_mm = 9.4\n'
    remedy = _first(proved_remedies(pinned(make_job, 8.0, 8.5, more=work)).found)

    assert remedy.does[0].drop
    assert remedy.text.startswith("do not drill to 9.4 mm")


def _wheel(make_job: MakeJob, percent: float) -> Prepared:
    """Return a wheel with a seat of 22.1 mm, 7 deep, from either side of a bore of 12: bearings of ISO 15, 8 x 22 x 7."""
    seat = cylinder(22.1, 7.0, 64)
    wheel = cylinder(60.0, 24.0, 64) - cylinder(12.0, 24.0, 64) - seat - seat.translate((0, 0, 17.0))
    text = f'[job]\nname = "x"\nmesh_unit = "mm"\n[size]\npercent = {percent}\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
    bearing = (
        'kind = "bearing"\ndiameter_mm = 8.0\nsize_mm = 22.0\nbore_mm = 22.1\nfit = "held"\njoins = ["a"]\ncount = 2\n'
    )
    screw = 'kind = "machine-screw"\ndiameter_mm = 8.0\nbore_mm = 12.0\nfit = "sliding"\nnut = "plain"\njoins = ["a"]\n'
    text += f'[[hardware]]\nname = "bearing"\n{bearing}[[hardware]]\nname = "axle"\n{screw}'
    return prepare(make_job(text, a=solid_of(wheel)), date(2026, 12, 1))


def test_a_seat_that_no_hand_drills_is_re_bored(make_job: MakeJob) -> None:
    """At 60 % it prints at 13.06 mm: no drill to 22 mm, nor to 19 mm for another bearing; the mesh is put right."""
    found = proved_remedies(_wheel(make_job, 60.0))
    (remedy,) = (one for one in found.found if any(told[2].startswith("bearing") for told in one.settles))

    assert remedy.kind == "rebore"
    assert all("a hand takes off 0.5 mm" in one.why for one in remedy.refused if one.kind in ("ream", "hardware"))


def test_each_seat_of_a_stack_has_its_depth_stop(make_job: MakeJob) -> None:
    """At 99 % both seats print at 21.68 mm and are reamed, 6.9 mm deep: the wall between them stays."""
    found = proved_remedies(_wheel(make_job, 99.0))
    (remedy,) = (one for one in found.found if any(told[2].startswith("bearing") for told in one.settles))

    assert remedy.kind == "ream"
    assert [edit.put["depth_mm"] for edit in remedy.does] == [pytest.approx(6.9)]
    assert remedy.does[0].put["bores"] == ("b1", "b3")

"""Other hardware of the same kind, through the whole stock, with the nut and the drilling that go with it."""

from __future__ import annotations

import pytest

from planner.job import Job
from planner.plan import prepare, proved_remedies
from planner.plan.changed_job import stands
from planner.remedy import Stand
from planner.remedy.group import groups_of
from planner.remedy.ways.other_hardware import other_hardware
from tests.conftest import MakeJob
from tests.remedy.devices import PART, TODAY, pinned
from tests.shapes import bored_plate

SCREW = (
    '[[hardware]]\nname = "screw"\nkind = "machine-screw"\ndiameter_mm = 3.0\nbore_mm = {bore}\nfit = "sliding"\n'
    'joins = ["a"]\ncount = 2\n'
)


def test_the_whole_stock_is_looked_through(make_job: MakeJob) -> None:
    """2.4 mm prints at 2.2, and 1.40 mm beside it stand no drill: M2.5 needs 2.6 mm, M2 goes in as it is."""
    plate = bored_plate(60, 40, 10, [(30, 2.6, 2.4, 96)])
    ready = prepare(make_job(PART + SCREW.format(bore=2.4), a=plate), TODAY)
    remedy = next(r for r in proved_remedies(ready).found if r.kind == "hardware")

    assert remedy.text == "take M2 machine-screw for screw instead of M3"
    assert any("M2.5" in refused.text for refused in remedy.refused)
    assert remedy.costs.money == pytest.approx(2 * 0.08)


def test_no_device_is_turned_to_try_the_stock(make_job: MakeJob) -> None:
    """Which bores a size needs drilled is asked in the movement and with the strength of before."""
    plate = bored_plate(60, 40, 10, [(30, 2.6, 2.4, 96)])
    now, again = stands(prepare(make_job(PART + SCREW.format(bore=2.4), a=plate), TODAY))
    turned: list[bool] = []

    def told(job: Job, *, posed: bool = True, strong: bool = True, asked: bool = True) -> Stand:
        turned.append(posed)
        return again(job, posed=posed, strong=strong, asked=asked)

    group = next(one for one in groups_of(now, None) if "hardware" in one.kind.cures)

    assert len(list(other_hardware(now, group, told))) == len(turned) > 1
    assert not any(turned)


def test_a_loose_bore_takes_the_next_size_or_is_drilled_for_it(make_job: MakeJob) -> None:
    """A pin of 5 rattles in 6.2 mm: 6 mm pins need 6.2, and the bore prints at 6.0."""
    remedies = proved_remedies(pinned(make_job, 5.0, 6.2)).found

    assert remedies[0].text == "drill b1 of a to 6.2 mm, and take 6 mm dowel-pin for pin instead of 5 mm"
    assert [edit.table for edit in remedies[0].does] == ["hardware", "work"]


def test_a_screw_that_splits_its_boss_runs_through_to_a_nut(make_job: MakeJob) -> None:
    """An M6 cutting its thread in 5 mm splits a boss of 8 mm (2 x 6 = 12 needed); M4 runs through the 4.8 mm that print.

    ISO 273: M4 runs in 4.3, 4.5 or 4.8 mm.
    """
    screw = SCREW.format(bore=5.0).replace('"sliding"', '"pilot"').replace("3.0", "6.0")
    plate = bored_plate(60, 8, 10, [(15, 4, 5.0, 96), (45, 4, 5.0, 96)])
    blind = bored_plate(60, 8, 10, [(15, 4, 5.0, 96), (45, 4, 5.0, 96)], deep=7)
    through, shut = (proved_remedies(prepare(make_job(PART + screw, a=body), TODAY)) for body in (plate, blind))
    (remedy,) = [one for one in through.found if one.kind == "hardware"]

    assert remedy.text == "take M4 machine-screw with a nut for screw instead of M6"
    assert [one.kind for one in shut.found if "nut" in one.text] == []
    assert any("blind" in refused.why for _, tried in shut.unsettled for refused in tried)


BEARING = (
    '[[hardware]]\nname = "bearing"\nkind = "bearing"\ndiameter_mm = 6.0\nsize_mm = {outside}\nbore_mm = {bore}\n'
    'fit = "held"\njoins = ["a"]\n'
)


def test_a_bearing_gives_way_to_one_of_the_same_bore(make_job: MakeJob) -> None:
    """13.25 mm prints at 13.05, and 1.375 mm beside it stand no drill of 19: a 6 x 13 bearing has the same shaft (ISO 15)."""
    plate = bored_plate(60, 40, 10, [(30, 8, 13.25, 128)])
    ready = prepare(make_job(PART + BEARING.format(outside=19.0, bore=13.25), a=plate), TODAY)
    (remedy,) = proved_remedies(ready).found

    assert remedy.text == "take 6 × 13 × 3.5 bearing for bearing instead of 6 × 19 × 6"
    assert [edit.put["size_mm"] for edit in remedy.does] == [13.0]


def test_a_seat_too_wide_for_any_bearing_gets_a_bush_for_its_outside(make_job: MakeJob) -> None:
    """In 27 mm a bearing of 19 mm sits in a bush bored 19 mm, not in one for its shaft."""
    plate = bored_plate(60, 40, 10, [(30, 20, 27.3, 128)])
    ready = prepare(make_job(PART + BEARING.format(outside=19.0, bore=27.3), a=plate), TODAY)
    (remedy,) = proved_remedies(ready).found

    assert (remedy.kind, remedy.text) == ("bush", "glue in a bush bored 19 mm in b1 of a")

"""Gaps of plates: what finds room saves a plate, what does not stays, and both are proved."""

from __future__ import annotations

from dataclasses import replace

import pytest
import shapely

from planner.job import Job
from planner.packing import NO_RULES, Item, PackedPlate, Placement, Rules, verify
from planner.plan.plates.filled_gaps import fuller, without_spare_plates
from tests.conftest import MakeJob
from tests.packing.part_sets import GROUP, item_of
from tests.shapes import cuboid

BIG, SMALL = item_of("big", shapely.box(0, 0, 150, 150)), item_of("small", shapely.box(0, 0, 40, 20), 2)
KNOWN = {"big": BIG, "small": SMALL}
COPIES = [("small", 1), ("small", 2)]


@pytest.fixture(name="job")
def _job(make_job: MakeJob) -> Job:
    """Return a job on a bed of 220 mm that may use a smaller one too."""
    text = '[job]\nname = "x"\nmaterial = "petg"\nprinter = "bench-220"\n[plan]\nprinters = ["small-180"]\n'
    return make_job(text + '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n', a=cuboid(10, 10, 5))


def _plate(printer: str, *placements: tuple[str, int, float, float], fill: float = 0.5) -> PackedPlate:
    """Return a plate of copies at places."""
    return PackedPlate(
        group=GROUP,
        placements=tuple(Placement(part=p, copy=c, x_mm=x, y_mm=y, turn_deg=0.0) for p, c, x, y in placements),
        fill=fill,
        printer=printer,
    )


def _rules(job: Job, rules: Rules = NO_RULES) -> dict[str, Rules]:
    """Return rules by printer."""
    return {"": rules, job.printer.name: rules, "small-180": rules}


def test_a_plate_is_filled_further_and_what_lies_there_does_not_move(job: Job) -> None:
    """Two pieces of 40 x 20 mm lie beside one of 150 on a bed of 210: proved, the first where it was."""
    plate = _plate("", ("big", 1, 85.0, 85.0))
    found = fuller(job, plate, COPIES, KNOWN, NO_RULES)
    assert found is not None

    assert found.placements[0] == plate.placements[0]
    assert sorted((p.part, p.copy) for p in found.placements[1:]) == COPIES
    spacing_mm = job.settings.spacing_mm.value
    assert verify([found], [BIG, SMALL], bed=job.printer.bed, spacing_mm=spacing_mm) == ()


@pytest.mark.parametrize(
    "item",
    [
        replace(SMALL, height_mm=1000.0),
        replace(SMALL, group=replace(GROUP, colour="black")),
        item_of("small", shapely.box(0, 0, 100, 100), 2),
    ],
    ids=["too high", "another colour", "no room"],
)
def test_what_cannot_join_is_not_laid(job: Job, item: Item) -> None:
    """A piece higher than the printer, of another group, or larger than every gap: no fuller plate."""
    plate = _plate("", ("big", 1, 85.0, 85.0))

    assert fuller(job, plate, COPIES, {"big": BIG, "small": item}, NO_RULES) is None


def test_a_plate_whose_pieces_all_find_room_elsewhere_is_spared(job: Job) -> None:
    """The small bed's two pieces go to the large one; every copy is there once."""
    large = _plate("", ("big", 1, 85.0, 85.0))
    small = _plate("small-180", ("small", 1, 40.0, 40.0), ("small", 2, 40.0, 80.0), fill=0.05)
    (left,) = without_spare_plates(job, [large, small], [BIG, SMALL], _rules(job))

    assert left.printer == ""
    assert sorted((p.part, p.copy) for p in left.placements) == [("big", 1), *COPIES]


def test_a_plate_of_which_one_piece_finds_no_room_stays_whole(job: Job) -> None:
    """Beside the big piece there is room for the small one, but not for another of 120 mm: both plates stay."""
    wide = item_of("wide", shapely.box(0, 0, 120, 100))
    plates = [
        _plate("", ("big", 1, 85.0, 85.0)),
        _plate("small-180", ("small", 1, 30.0, 20.0), ("wide", 1, 80.0, 100.0), fill=0.3),
    ]

    assert without_spare_plates(job, plates, [BIG, replace(SMALL, copies=1), wide], _rules(job)) == plates


def test_parts_that_lie_together_stay_where_they_are(job: Job) -> None:
    """A rule of ``together`` names the small piece: its plate is kept though there is room."""
    plates = [
        _plate("", ("big", 1, 85.0, 85.0)),
        _plate("small-180", ("small", 1, 40.0, 40.0), ("small", 2, 40.0, 80.0), fill=0.05),
    ]
    rules = _rules(job, Rules(together=(frozenset(["small", "twin"]),)))

    assert without_spare_plates(job, plates, [BIG, SMALL], rules) == plates

"""On plates: every copy lies on a proved plate, or is told as lying on none."""

from __future__ import annotations

from collections import Counter
from datetime import date

from planner.packing import verify_plate
from planner.plan import prepare
from planner.plan.parts.at_size import at_size
from planner.plan.plates.on_plates import on_plates
from planner.plan.prepare import no_progress
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n'
    '[[part]]\nname = "block"\nmesh = "block.stl"\ncount = 3\nduty = "cover"\npose = [0, 0, -1]\n'
    '[[part]]\nname = "beam"\nmesh = "beam.stl"\nduty = "cover"\npose = [0, 0, -1]\n'
)


def test_three_blocks_lie_on_one_plate_and_a_beam_too_long_for_the_bed_on_none(make_job: MakeJob) -> None:
    """Blocks of 40 x 30 mm on a bed of 220 mm; a beam of 400 mm has a finding in place of a plate. Other poses are weighed."""
    job = make_job(TEXT, block=cuboid(40, 30, 6), beam=cuboid(400, 10, 6))
    laid = on_plates(at_size(prepare(job, date(2026, 12, 1)), no_progress), no_progress)
    (plate,) = laid.packed
    rings = {part.part.name: part.outline_mm for part in laid.sized.parts}

    assert Counter(placed.part for placed in plate.placements) == {"block": 3}
    assert verify_plate(plate.placements, rings, bed=job.printer.bed, spacing_mm=4.0) == ()
    assert ["beam" in f"{finding.part} {finding.feature}" for finding in laid.missing] == [True]
    assert [part.part.name for part in laid.sized.parts] == ["block", "beam"]

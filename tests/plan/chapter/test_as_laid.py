"""Plates of the last plan, laid out as they were."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from planner.packing import counted
from planner.plan import Stood, left_to_print
from planner.plan.chapter.as_laid import as_laid
from planner.plan.dates.standing import Standing, as_stood
from planner.plan.plates.plate_inputs import PlateInputs
from planner.schedule import PlateLoad
from tests.conftest import MakeJob
from tests.plan.chapter.plates_and_posts import plan_of


def test_a_part_of_a_plate_stays_parted_and_the_rest_is_laid_as_planned(make_job: MakeJob) -> None:
    """The last plan had one block alone: it is kept as it lay, all other pieces lie on the other plates, none twice."""
    plan = plan_of(make_job)
    inputs = PlateInputs.of(plan)
    block = next(p for plate in plan.plates for p in plate.placements if p.part == "block")
    stood = Stood(printer=plan.job.printer.name, start=None, placements=(block,))
    found = as_laid(inputs, plan.plates, [stood])

    assert counted(found[0].placements) == {"block": 1}
    every = [(p.part, p.copy) for plate in found for p in plate.placements]
    assert len(set(every)) == len(every)
    assert Counter(part for part, _ in every) == Counter(plate=1, block=3)
    gone = replace(stood, printer="sold")
    off = replace(stood, placements=(replace(block, x_mm=-500.0),))
    assert [p.placements for p in as_laid(inputs, plan.plates, [gone, off])] == [p.placements for p in plan.plates]


def test_what_stood_is_known_by_its_pieces(make_job: MakeJob) -> None:
    """A plate of the same pieces has its old printer and start; the left plan starts it there again."""
    plan = plan_of(make_job)
    run = plan.runs[0]
    plate = next(plate for plate in plan.plates if plate.number == run.plate)
    stood = Stood(printer=run.printer, start=run.start, placements=plate.placements)
    loads = [PlateLoad(plate=p.number, takes_s={run.printer: 60.0}) for p in plan.plates]
    found = as_stood(loads, plan.plates, Standing(stood=(stood,)), "petg")

    assert [load.stood for load in found if load.plate == run.plate] == [(run.printer, run.start)]
    again = left_to_print(plan, {}, [], Standing(stood=(stood,)))
    assert run.start in {each.start for each in again.runs}

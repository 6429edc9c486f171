"""One after another: asked for, room known, and times that add up to the plate's."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.finding import Verdict
from planner.job import Job
from planner.layers import estimate_part, plate_duration_s
from planner.packing import InTurn, Placement
from planner.plan.parts.pieces_one_by_one import asks_in_turn, piece_times_s, room_of, turn_findings, turns_of
from planner.sourced import stated
from tests.conftest import MakeJob
from tests.shapes import cuboid

BLOCK = cuboid(12, 10, 4)


@pytest.fixture(name="job")
def _job(make_job: MakeJob) -> Job:
    """Return a job whose copies are to be printed one after another."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\ncount = 3\n'
    return make_job(text + '[plan]\norder = "one-after-another"\n', a=BLOCK)


def test_only_the_order_in_the_job_asks_for_it(job: Job) -> None:
    """Without a plan, or printed together, no plate is laid out in turn, whatever the printer measures."""
    assert job.calendar is not None
    together = replace(job, calendar=replace(job.calendar, order="together"))
    measured = replace(job.printer, head_clear_mm=stated(30.0), under_gantry_mm=stated(25.0))

    assert asks_in_turn(job)
    assert turns_of(job, measured) == room_of(measured) == InTurn(clear_mm=30.0, under_mm=25.0)
    for other in (together, replace(job, calendar=None)):
        assert not asks_in_turn(other)
        assert turns_of(other, measured) is None
        assert turn_findings(other, job.printer) == ()


@pytest.mark.parametrize(
    ("known", "asked"),
    [
        ((), ("head_clear_mm", "under_gantry_mm")),
        (("head_clear_mm",), ("under_gantry_mm",)),
        (("under_gantry_mm",), ("head_clear_mm",)),
    ],
)
def test_a_measure_that_nobody_took_is_a_hold_that_asks_for_it_alone(
    job: Job, known: tuple[str, ...], asked: tuple[str, ...]
) -> None:
    """Both keys, or the one that is missing, stand in the remedy; one known measure gives no room."""
    printer = replace(job.printer, **{key: stated(30.0) for key in known})  # type: ignore[arg-type]
    (finding,) = turn_findings(job, printer)

    assert finding.verdict is Verdict.HOLD
    assert [key for key in ("head_clear_mm", "under_gantry_mm") if key in finding.remedy] == list(asked)
    assert finding.question.startswith(f"On {printer.name}, ")
    assert room_of(printer) is None


def test_with_both_measures_nothing_is_asked(job: Job) -> None:
    """No finding."""
    assert turn_findings(job, replace(job.printer, head_clear_mm=stated(30.0), under_gantry_mm=stated(25.0))) == ()


def test_pieces_take_together_what_their_plate_takes(job: Job) -> None:
    """Three alike: their times add up to the plate's, the first has the heat-up and no way from another (under 1 s)."""
    known = {"a": estimate_part(BLOCK, settings=job.settings, printer=job.printer, material=job.material_named("petg"))}
    places = [Placement(part="a", copy=n, x_mm=0.0, y_mm=0.0, turn_deg=0.0) for n in (1, 2, 3)]
    first, second, third = piece_times_s(job, places, known, job.printer, None)
    whole = plate_duration_s([known["a"]] * 3, settings=job.settings, printer=job.printer, in_turn=True)

    assert first + second + third == pytest.approx(whole.value)
    assert 0.0 < job.printer.heat_up_s.value - (first - second) < 1.0
    assert second == pytest.approx(third)

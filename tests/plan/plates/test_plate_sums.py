"""Sums over plates: ends of ranges add, one withheld plate withholds the grams, colours are told apart."""

from __future__ import annotations

from dataclasses import replace

from planner.job import Job
from planner.layers import Amount
from planner.packing import Group, Plate
from planner.plan.plates.plate_sums import NO_PLATE, by_colour, costed, summed
from tests.conftest import MakeJob
from tests.shapes import cuboid

GREEN = Group(material="petg", colour="green", support=False, brim_mm=0.0)


def _amount(value: float) -> Amount:
    """Return an amount that may be half or double."""
    return Amount(value=value, low=value / 2, high=2 * value)


def _plate(number: int, seconds: float, grams: float | None, colour: str = "green", printer: str = "") -> Plate:
    """Return a plate; without grams it says why."""
    return Plate(
        number=number,
        group=replace(GREEN, colour=colour),
        placements=(),
        duration_s=_amount(seconds),
        kinds_s={},
        mass_g=None if grams is None else _amount(grams),
        height_mm=1.0,
        fill=0.1,
        file="",
        withheld="" if grams is not None else f"plate {number} is open",
        printer=printer,
    )


def test_expected_values_and_both_ends_add() -> None:
    """By hand: 100 and 200 s, 10 and 30 g, each from half to double."""
    totals = summed([_plate(1, 100.0, 10.0), _plate(2, 200.0, 30.0)])

    assert totals.duration_s == Amount(value=300.0, low=150.0, high=600.0)
    assert totals.mass_g == Amount(value=40.0, low=20.0, high=80.0)
    assert totals.withheld == ""


def test_one_plate_without_grams_withholds_the_sum_but_not_the_hours() -> None:
    """The reason is told; without any plate, so is that."""
    totals, none = summed([_plate(1, 100.0, 10.0), _plate(2, 200.0, None)]), summed([])

    assert totals.mass_g is None
    assert totals.withheld == "plate 2 is open"
    assert totals.duration_s == Amount(value=300.0, low=150.0, high=600.0)
    assert (none.duration_s, none.mass_g, none.withheld) == (None, None, NO_PLATE)


def test_colours_are_summed_apart_at_the_end_asked_for() -> None:
    """Two green plates and a black one, expected and at most; a plate without grams adds none."""
    plates = [_plate(1, 1.0, 10.0), _plate(2, 1.0, 5.0, "black"), _plate(3, 1.0, 30.0), _plate(4, 1.0, None, "white")]

    assert by_colour(plates) == {"green": 40.0, "black": 5.0}
    assert by_colour(plates, "high") == {"green": 80.0, "black": 10.0}


def _job(make_job: MakeJob) -> Job:
    """Return a job with a filament of 20 a kilogram."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
    spool = '[[spool]]\nmaterial = "petg"\ncolour = "green"\nprice_per_kg = 20.0\n'
    return make_job(text + spool, a=cuboid(10, 10, 5))


def test_filament_costs_its_grams_and_withheld_grams_cost_nothing_told(make_job: MakeJob) -> None:
    """500 g at 20 a kilogram are 10; where grams are withheld there is no cost at all."""
    job = _job(make_job)
    material = job.material_named("petg")
    plates = [_plate(1, 3600.0, 500.0)]
    cost = costed(job, material, plates, summed(plates), (), ())
    assert cost is not None
    (filament,) = [line for line in cost.lines if line.what == "filament"]

    assert filament.amount == Amount(value=10.0, low=5.0, high=20.0)
    open_plates = [_plate(1, 3600.0, None)]
    assert costed(job, material, open_plates, summed(open_plates), (), ()) is None

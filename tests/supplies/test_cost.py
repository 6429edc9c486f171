"""The cost: by hand, with each printer's own power and the job's own prices."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.job import read_job
from planner.layers import Amount
from planner.sourced import stated
from planner.supplies import (
    built,
    cost_of,
    energy_kwh,
)
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = '[job]\nname = "x"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'


def _amount(value: float) -> Amount:
    return Amount(value=value, low=value, high=value)


def test_cost_by_hand(heron: Path) -> None:
    """100 g at 22 a kg; 300 s at 300 W and 3600 s at 120 W at 0.30 a kWh; printed things over 1 - 0.15."""
    job = read_job(heron)
    cost = cost_of(
        job, job.materials[0], mass_g=_amount(100.0), runs=[(job.printer, _amount(3900.0))], hardware=(), cuts=()
    )
    energy = (300 * 300 + 120 * 3600) / 3.6e6 * 0.30

    assert cost.device.value == pytest.approx(2.20 + energy)
    assert cost.delivered.value == pytest.approx((2.20 + energy) / 0.85)


def test_each_plate_is_billed_by_its_own_printers_watts(heron: Path) -> None:
    """One hour on each of two printers, E = P t by hand: 300 s of 300 W and 3300 s of 120 W; 600 s of 500, 3000 s of 200."""
    job = read_job(heron)
    other = replace(
        job.printer, name="other", heat_up_s=stated(600.0), heating_w=stated(500.0), printing_w=stated(200.0)
    )
    runs = [(job.printer, _amount(3600.0)), (other, _amount(3600.0))]
    cost = cost_of(job, job.materials[0], mass_g=_amount(100.0), runs=runs, hardware=(), cuts=())
    joules = 300 * 300 + 3300 * 120 + 600 * 500 + 3000 * 200

    assert energy_kwh(runs).value == pytest.approx(joules / 3.6e6)
    energy = next(line for line in cost.lines if line.what == "energy")
    assert energy.amount.value == pytest.approx(joules / 3.6e6 * 0.30)
    assert "other 200 W printing" in energy.why


def test_prices_of_the_job_come_before_examples(make_job: MakeJob) -> None:
    """A spool's and a screw's own price are used, and the reason says job file; two screws are bagged with a spare."""
    text = (
        TEXT + '[[spool]]\nmaterial = "petg"\nprice_per_kg = 40.0\n'
        '[[hardware]]\nname="s"\nkind="machine-screw"\ndiameter_mm=3.0\njoins=["a"]\ncount=2\nwashers=0\nprice_each=1.5\n'
    )
    job = make_job(text, a=cuboid(40, 30, 10))
    lines = built(job, 1.0, ()).hardware
    cost = cost_of(job, job.materials[0], mass_g=_amount(100.0), runs=(), hardware=lines, cuts=())

    assert cost.device.value == pytest.approx(4.0 + 3 * 1.5)
    assert "job file" in cost.lines[0].why

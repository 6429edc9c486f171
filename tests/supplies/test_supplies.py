"""Supplies: material with reasons, lengths to stock, cuts, cost by hand, worn mass, cautions."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from planner.finding import Verdict
from planner.job import Job, read_job
from planner.layers import Amount
from planner.sourced import stated
from planner.supplies import (
    cautions,
    choose_material,
    cost_of,
    cut_list,
    energy_kwh,
    hardware_list,
    mass_findings,
    material_findings,
    spool_findings,
    worn_g,
)
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = '[job]\nname = "x"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'


def _amount(value: float) -> Amount:
    return Amount(value=value, low=value, high=value)


@pytest.mark.parametrize(
    ("kept", "spools", "choice", "rejected"),
    [
        ('kept = ["car"]', ["pla", "petg"], None, {"pla": "47", "petg": ""}),
        ('kept = ["garden"]', ["pla", "petg"], "petg", {"pla": "50 °C"}),
        ('kept = ["house"]', ["pla", "abs"], "pla", {"abs": "enclosure"}),
        ("hottest_c = 30.0", ["tpu", "pla"], "pla", {"tpu": "rubber"}),
    ],
)
def test_heat_and_the_printer_choose_the_material(
    make_job: MakeJob, kept: str, spools: list[str], choice: str | None, rejected: dict[str, str]
) -> None:
    """PLA fails a car and a garden, ABS an open printer, TPU a load part; each rejection says why."""
    text = TEXT + "".join(f'[[spool]]\nmaterial = "{name}"\n' for name in spools) + f"[use]\n{kept}\n"
    made = choose_material(make_job(text, a=cuboid(40, 30, 10)))

    if choice:
        assert made.choice == choice
    for name, told in rejected.items():
        if name != made.choice:
            assert told in next(r.reason for r in made.rejected if r.material == name)


def test_a_material_that_does_not_suit_holds(make_job: MakeJob) -> None:
    """PLA stated for a car at 70 C is kept, and the finding holds."""
    job = make_job(TEXT.replace('"x"', '"x"\nmaterial = "pla"') + '[use]\nkept = ["car"]\n', a=cuboid(40, 30, 10))

    assert job.material is not None
    assert [f.verdict for f in material_findings(job, job.material)] == [Verdict.HOLD]


def test_a_short_spool_holds(heron: Path) -> None:
    """600 g with a reserve of 15 % are more than 620 g: a hold that says how much is missing."""
    job = read_job(heron)
    short = spool_findings(job, job.materials[0], {"green": 600.0})[0]
    enough = spool_findings(job, job.materials[0], {"green": 180.0})[0]

    assert (short.verdict, enough.verdict) == (Verdict.HOLD, Verdict.GO)
    assert "70 g more" in short.remedy


def test_lengths_go_to_the_next_stock(heron: Path) -> None:
    """14 mm x 1.065 = 14.9 -> 15 mm post; with its nut (ISO 4032, M3: 2.4 mm) 12 x 1.065 + 2.4 -> 16 mm."""
    lines = {line.name: line for line in hardware_list(read_job(heron), 1.065, ())}

    assert lines["pivot post"].length_mm == 15.0
    assert lines["knob screw"].length_mm == 16.0
    assert lines["anchor screw"].length_mm == 12.0
    assert lines["printed lock pin"].length_mm is None
    assert "stack_mm" in lines["printed lock pin"].why


def test_cuts_scale_where_they_should(heron: Path) -> None:
    """Cord grows with s, padding with s2, webbing goes round the person and stays."""
    job = read_job(heron)
    small, large = ({cut.name: cut for cut in cut_list(job, s, ())} for s in (1.0, 2.0))

    assert large["pull cord"].length_mm == pytest.approx(2 * 210 + 120)
    assert large["return elastic"].length_mm == pytest.approx(2 * 120 * 0.85)
    assert large["cuff strap"].length_mm == small["cuff strap"].length_mm == pytest.approx(190 * 1.35)
    assert large["padding of cuff"].area_mm2 == pytest.approx(4 * (job.paddings[0].area_mm2 or 0.0), rel=1e-9)


def test_an_outline_weighs_what_its_area_weighs(heron: Path) -> None:
    """Padding drawn as SVG has the lateral area of the cone that the cuff lines (pi (R + r) l, handbook), and its mass."""
    job = read_job(heron)
    wide, narrow, long = 31.0, 31.0 * 0.86, 120.0
    cone = math.pi * (wide + narrow) * math.hypot(long, wide - narrow) * 242.0 / 360.0
    bare = replace(job, paddings=())
    lined, unlined = (worn_g(one, 0.0, hardware_list(one, 1.0, ()), cut_list(one, 1.0, ())) for one in (job, bare))

    assert job.paddings[0].area_mm2 == pytest.approx(cone, rel=1e-4)
    assert lined - unlined == pytest.approx(cone * 3.0 / 1000.0 * 0.15, rel=1e-4)


def test_padding_follows_its_own_part(heron: Path) -> None:
    """Padding on a part that is never scaled keeps its area."""
    job = read_job(heron)
    fixed = replace(job, parts=tuple(replace(part, scale_percent=100.0) for part in job.parts))
    area = {cut.name: cut.area_mm2 for cut in cut_list(fixed, 1.5, ())}

    assert area["padding of cuff"] == pytest.approx(job.paddings[0].area_mm2)


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
    """A spool's and a screw's own price are used, and the reason says job file."""
    text = (
        TEXT + '[[spool]]\nmaterial = "petg"\nprice_per_kg = 40.0\n'
        '[[hardware]]\nname="s"\nkind="machine-screw"\ndiameter_mm=3.0\njoins=["a"]\ncount=2\nprice_each=1.5\n'
    )
    job = make_job(text, a=cuboid(40, 30, 10))
    lines = hardware_list(job, 1.0, ())
    cost = cost_of(job, job.materials[0], mass_g=_amount(100.0), runs=(), hardware=lines, cuts=())

    assert cost.device.value == pytest.approx(4.0 + 3.0)
    assert "job file" in cost.lines[0].why


def test_worn_mass_counts_metal_foam_and_straps(heron: Path) -> None:
    """More than what is printed, and over the limit it holds."""
    job = read_job(heron)
    worn = worn_g(job, 150.0, hardware_list(job, 1.065, ()), cut_list(job, 1.065, ()))

    assert 160.0 < worn < 250.0
    assert mass_findings(job, worn)[0].verdict is Verdict.GO
    assert mass_findings(job, 260.0)[0].verdict is Verdict.HOLD


def test_the_usual_cautions_are_said_once(heron: Path) -> None:
    """Test print, skin, drilling, hot water, unattended printing, who decides: each once; nothing is called safe."""
    job: Job = read_job(heron)
    said = cautions(job, job.materials[0], 85.0, work=True)
    text = " ".join(caution.text for caution in said)

    assert len({caution.about for caution in said}) == len(said)
    for word in (
        "measure a test bore",
        "skin",
        "eye protection",
        "never on the wearer",
        "unattended",
        "below 90 %",
        "licensed",
    ):
        assert word in text
    assert " safe" not in text

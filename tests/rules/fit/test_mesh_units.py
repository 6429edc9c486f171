"""Each mesh's unit is judged by its neighbours and by what is bought; while it is open, no fit hangs on it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import numpy as np
import pytest

from planner.finding import Verdict
from planner.job import job_of_folder, read_job, read_printer
from planner.mesh import Solid, read_solid
from planner.plan import Prepared, prepare
from planner.rules import check
from planner.rules.check import Checked
from tests.bench.every_case import cases
from tests.conftest import MakeJob
from tests.shapes import DATA, Manifold, bored_plate, cuboid, cylinder, solid_of, tube, written

TODAY = date(2026, 12, 1)
INCH = 25.4
PLATE = bored_plate(120, 60, 6, [(10, 10, 3.4, 48), (110, 10, 3.4, 48)])
BLOCK = cuboid(45, 30, 20)
HEAD = '[job]\nname = "x"\nmaterial = "petg"\n'


def _part(name: str, more: str = "") -> str:
    """Return a part of a job file."""
    return f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\n{more}'


def _among_mm(make_job: MakeJob, odd: Solid, more: str = "", head: str = HEAD, name: str = "odd") -> Checked:
    """Return what a check says of a mesh among a plate of 120 mm and a block of 45."""
    text = head + _part("plate") + _part("block") + _part(name, more)
    return check(prepare(make_job(text, plate=PLATE, block=BLOCK, **{name: odd}), TODAY).bound, 100.0)


def _doubted(checked: Checked) -> list[str]:
    """Return the parts whose unit is asked for."""
    return [f.part for f in checked.findings if f.rule == "mesh.unit" and f.verdict is Verdict.HOLD]


@pytest.mark.parametrize("unit", ["", 'mesh_unit = "mm"\n'])
def test_a_speck_among_millimetre_parts_is_offered_as_inches(make_job: MakeJob, unit: str) -> None:
    """A box of 3.6 x 4.6 x 1.9 would be 91.4 x 116.8 x 48.3 mm (one inch is 25.4 mm), whatever the job says of all."""
    checked = _among_mm(make_job, cuboid(3.6, 4.6, 1.9), head=HEAD + unit)
    held = checked.findings[0]

    assert (held.rule, held.part, held.verdict) == ("mesh.unit", "odd", Verdict.HOLD)
    assert "inch (91.4 x 116.8 x 48.3 mm)" in held.question
    assert checked.verdict is Verdict.HOLD


SMALL = {
    "cap": tube(8.0, 5.3, 4.0),
    "pin": solid_of(cylinder(3.0, 7.3, 48)),
    "turned": solid_of(cylinder(4.3, 7.1, 48)),
    "spacer": tube(6.2, 3.2, 4.7),
    "block-of-whole-mm": cuboid(8, 6, 3),
    "guide": bored_plate(7.3, 5.7, 3.1, [(3.6, 2.8, 3.2, 48)]),
    "thin-ring": tube(7.7, 5.9, 1.3),
}


@pytest.mark.parametrize("name", SMALL)
def test_small_parts_in_millimetres_are_not_doubted(make_job: MakeJob, name: str) -> None:
    """Pins, spacers and caps of 3 to 8 mm are what they are; M3 goes through 3.2 mm (ISO 273, fine)."""
    assert _doubted(_among_mm(make_job, SMALL[name])) == []


INCHES = {
    "bored": bored_plate(3.5, 2.0, 0.5, [(0.5, 0.5, 0.125, 48), (3.0, 0.5, 0.125, 48)]),
    "shell": solid_of(Manifold.cube((4.5, 3.0, 2.0)) - Manifold.cube((4.4, 2.9, 2.0)).translate((0.05, 0.05, 0.05))),
    "sheet": cuboid(4.5, 3.5, 0.125),
    "post": solid_of(cylinder(0.25, 1.5, 48)),
}


@pytest.mark.parametrize("name", INCHES)
def test_what_no_line_can_lay_is_doubted(make_job: MakeJob, name: str) -> None:
    """Bores of 1/8, walls of 0.05, a sheet of 1/8 inch, read in mm: finer than two lines of 0.45."""
    assert _doubted(_among_mm(make_job, INCHES[name])) == ["odd"]


@pytest.mark.parametrize("file", ["angle_block_inch.stl"])
def test_published_inch_files_are_caught_among_millimetre_ones(make_job: MakeJob, file: str) -> None:
    """MIT-licensed test part of trimesh: 1.3 x 1.0 x 1.4 inches (tests/data/bores/README.md)."""
    checked = _among_mm(make_job, read_solid(DATA / "bores" / file, name="odd"))

    assert _doubted(checked) == ["odd"]
    assert "34.0 x 25.4 x 34.3" in checked.findings[0].question


def test_the_largest_part_of_a_device_may_be_drawn_in_inches(make_job: MakeJob) -> None:
    """A box of 5 x 2.5 x 1.375 beside one of 45 mm: sixteenths of an inch, though it is the largest part then."""
    odd = cuboid(5.0, 2.5, 1.375)
    text = HEAD + _part("block") + _part("odd")
    (held, *_) = check(prepare(make_job(text, block=BLOCK, odd=odd), TODAY).bound, 100.0).findings

    assert held.question.startswith("Is odd drawn in inch (127.0 x 63.5 x 34.9 mm) or cm (50.0 x 25.0 x 13.8 mm)")


def test_published_millimetre_parts_are_recognised(tmp_path: Path) -> None:
    """Printed parts of three projects, in one folder: none is doubted."""
    for name in ("brace", "clip_plate", "gearwheel_keyed", "slide_cover", "stepped_plate"):
        (tmp_path / f"{name}.stl").write_bytes((DATA / "bores" / f"{name}.stl").read_bytes())
    job = job_of_folder(tmp_path, printer=read_printer("bench-220", tmp_path))

    assert _doubted(check(prepare(job, TODAY).bound, 100.0)) == []


def test_the_heron_is_in_millimetres(heron_ready: Prepared) -> None:
    """No part of it is doubted, the smallest neither."""
    assert _doubted(check(heron_ready.bound, 100.0)) == []


def test_nothing_is_judged_on_a_size_that_is_open(make_job: MakeJob) -> None:
    """A plate drawn in inches has bores of 0.125 mm and walls of 0.5: no-go of both, until a person says inch."""
    drawn = bored_plate(3.5, 2.0, 0.5, [(0.5, 0.5, 0.125, 48), (3.0, 0.5, 0.125, 48)])
    screw = '[[hardware]]\nname = "s"\nkind = "machine-screw"\ndiameter_mm = 2.5\nbore_mm = 3.175\njoins = ["odd"]\n'
    gap = '[[gap]]\nbetween = ["plate", "odd"]\ndrawn_mm = 0.1\n'
    open_one = _among_mm(make_job, drawn, screw + gap)
    settled = _among_mm(make_job, drawn, 'mesh_unit = "inch"\n' + screw + gap)
    lifted = '[[override]]\nrule = "mesh.unit"\npart = "odd"\nrole = "maker"\nreason = "it is a model"\n'
    anyway = _among_mm(make_job, drawn, screw + gap + lifted)

    assert {f.rule for f in open_one.findings if f.part == "odd"} == {"mesh.unit"}
    assert not any(f.rule.startswith("gap.") for f in open_one.findings)
    assert open_one.verdict is not Verdict.NO_GO
    assert _doubted(settled) == []
    (bore, _) = [f for f in settled.findings if f.rule == "bore.edge" and f.part == "odd"]
    assert bore.measured == pytest.approx((0.5 - 0.125 / 2) * INCH, rel=0.01)
    assert any(f.rule == "wall.thin" and f.part == "odd" for f in anyway.findings)


def test_a_millimetre_file_in_a_job_of_inches_is_doubted(tmp_path: Path) -> None:
    """Read in inches a plate of 80 mm is two metres long, beside parts of 60 to 90 mm."""
    for name, solid in (("a", cuboid(3.5, 2, 0.5)), ("b", cuboid(2.4, 2, 1.5)), ("c", cuboid(80, 30, 6))):
        written(solid, tmp_path / f"{name}.stl")
    text = HEAD + 'mesh_unit = "inch"\n' + "".join(_part(name) for name in "abc")
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    checked = check(prepare(read_job(tmp_path / "job.toml"), TODAY).bound, 100.0)

    assert _doubted(checked) == ["c"]


@pytest.mark.parametrize("seed", cases(5, 12))
def test_parts_of_a_device_at_random_are_not_doubted(make_job: MakeJob, seed: int) -> None:
    """Plates, tubes and pins of 9 to 40 mm with bores of stock screws, against the same in inches, which are."""
    rng = np.random.default_rng(seed)
    x, y, z = rng.uniform(12, 40), rng.uniform(9, 20), rng.uniform(2, 8)
    bore = float(rng.choice([2.4, 2.9, 3.4, 4.5]))
    part = bored_plate(x, y, z, [(x / 2, y / 2, bore, 48)])

    assert _doubted(_among_mm(make_job, part)) == []
    assert _doubted(_among_mm(make_job, part.scaled(1 / INCH))) == ["odd"]

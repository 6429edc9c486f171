"""The audit: every planted fault is named by its rule, and honest programs pass whatever their way of writing."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from planner.finding import Verdict, worst
from planner.gcode import Meant, MeantPart, audit, measure
from planner.job import read_material, read_printer, read_settings
from planner.mesh import Solid, placed, posed, read_solid
from tests.gcode.writer import Program
from tests.shapes import ROOT, Manifold, cylinder, solid_of

HERE = Path()
HERON = ROOT / "sample_parts" / "heron" / "parts"
PRINTER, MATERIAL = read_printer("bench-220", HERE), read_material("petg", HERE)
SETTINGS = read_settings("standard-0.4", HERE)
HAND = solid_of(
    Manifold.cube((24, 8, 6))
    + Manifold.cube((8, 20, 6))
    + Manifold.cube((6, 6, 10))
    - cylinder(4, 30, 32).translate((19, 4, -5)),
    "hand",
)
PARTS = (
    MeantPart(name="link", solid=posed(read_solid(HERON / "link.stl"), (0, 0, -1)), count=2),
    MeantPart(name="hand", solid=posed(HAND, (0, 0, -1)), count=1),
    MeantPart(name="guide", solid=posed(read_solid(HERON / "guide.stl"), (0, 0, -1)), count=1),
)
MEANT = Meant(plate=1, parts=PARTS, printer=PRINTER, material=MATERIAL, settings=SETTINGS, duration_s=None, mass_g=None)
PLACES = [(45, 45), (115, 45), (45, 105), (115, 105)]


def _plate(seed: int, *, without: str = "", mirrored: str = "") -> list[Solid]:
    """Return the plate's copies at places and turns that a seed gives."""
    rng = np.random.default_rng(seed)
    places = [PLACES[k] for k in rng.permutation(len(PLACES))]
    copies = [part for part in PARTS for _ in range(part.count)]
    found: list[Solid] = []
    for (x, y), part in zip(places, copies, strict=True):
        solid = part.solid.mirrored() if part.name == mirrored else part.solid
        if part.name != without:
            found.append(placed(solid, x, y, float(rng.uniform(0, 360))))
    return found


def _rules(program: Program, copies: list[Solid], folder: Path, meant: Meant = MEANT) -> set[str]:
    """Return the rules that a program breaks."""
    path = program.write(folder / "a.gcode", copies, SETTINGS)
    found = audit(measure(path, PRINTER), meant).findings
    return {finding.rule for finding in found if finding.verdict is not Verdict.GO}


@pytest.mark.parametrize("seed", range(2))
@pytest.mark.parametrize(
    "program",
    [Program(), Program(relative=False), Program(inches=True), Program(skirt=False, nozzle_c=225.0)],
    ids=["plain", "absolute", "inches", "no skirt"],
)
def test_honest_programs_pass(seed: int, program: Program, tmp_path: Path) -> None:
    """Other places, turns, units, with and without skirt."""
    assert _rules(replace(program), _plate(seed), tmp_path) == set()


@pytest.mark.parametrize(
    ("program", "plate", "rule"),
    [
        (Program(scale=1.04), {}, "program.scale"),
        (Program(scale=0.95), {}, "program.scale"),
        (Program(), {"without": "guide"}, "program.parts"),
        (Program(), {"mirrored": "hand"}, "program.mirrored"),
        (Program(nozzle_c=275.0), {}, "program.nozzle"),
        (Program(bed_c=30.0), {}, "program.bed"),
        (Program(lift_mm=0.05), {}, "program.layer"),
        (Program(skip_layer=9), {}, "program.gap"),
        (Program(shift_mm=(-60.0, 0.0)), {}, "program.bed-edge"),
        (Program(nozzle_c=150.0), {}, "program.cold"),
        (Program(set_late=True), {}, "program.nozzle"),
    ],
    ids=["104 %", "95 %", "missing", "mirrored", "hot", "cold bed", "layer", "gap", "off", "cold", "late"],
)
def test_a_planted_fault_is_named(program: Program, plate: dict[str, str], rule: str, tmp_path: Path) -> None:
    """Each fault alone is found by its own rule."""
    assert rule in _rules(replace(program), _plate(3, **plate), tmp_path)


def test_an_extra_part_is_no_part_of_the_plate(tmp_path: Path) -> None:
    """A cube beside the plate's parts is told."""
    cube = placed(solid_of(Manifold.cube((14, 14, 14))), 170.0, 170.0, 12.0)

    assert _rules(Program(), [*_plate(1), cube], tmp_path) == {"program.parts"}


def test_a_temperature_for_every_layer_is_judged_by_the_worst(tmp_path: Path) -> None:
    """More than a hundred temperatures, each for less than a hundredth of the filament: judged, and no crash."""
    path = Program().write(tmp_path / "a.gcode", _plate(1), SETTINGS)
    honest = measure(path, PRINTER)
    swept = replace(honest, nozzle_c={180.0 + k: 1.0 for k in range(150)})
    worst_of = {f.rule: f for f in audit(swept, MEANT).findings}["program.nozzle"]

    assert worst_of.verdict is Verdict.NO_GO
    assert worst_of.measured == 329.0


def test_a_unit_mistake_is_told_from_a_scale(tmp_path: Path) -> None:
    """Parts at one tenth: cm and mm mixed up, not a scale of 10 %."""
    big = MeantPart(
        name="block",
        solid=posed(solid_of(Manifold.cube((100, 60, 40)) + Manifold.cube((40, 60, 60))), (0, 0, -1)),
        count=1,
    )
    small = placed(big.solid.scaled(0.1), 60.0, 60.0, 0.0)

    assert "program.unit" in _rules(Program(skirt=False), [small], tmp_path, replace(MEANT, parts=(big,)))


def test_an_honest_audit_says_that_all_is_there(tmp_path: Path) -> None:
    """The sentence gives the number of copies, and the verdict is go."""
    path = Program().write(tmp_path / "a.gcode", _plate(7), SETTINGS)
    found = audit(measure(path, PRINTER), MEANT)

    assert worst(found.findings) is Verdict.GO
    assert any("all 4 copies" in finding.why for finding in found.findings)
    assert sorted(match.part for match in found.matching.matches) == ["guide", "hand", "link", "link"]


@pytest.mark.parametrize(("middle", "off"), [((120.0, 120.0), False), ((40.0, 40.0), True)])
def test_the_corner_of_a_round_bed_is_no_bed(middle: tuple[float, float], off: bool, tmp_path: Path) -> None:
    """A disc 60 wide at (40, 40) lies within the square of 240, and 84 mm from the middle it ends 23 past the rim."""
    disc = MeantPart(name="disc", solid=posed(solid_of(cylinder(60, 2, 64)), (0, 0, -1)), count=1)
    meant = replace(MEANT, parts=(disc,), printer=read_printer("round-240", HERE))
    path = Program(skirt=False).write(tmp_path / "a.gcode", [placed(disc.solid, *middle, 0.0)], SETTINGS)
    edge = next(f for f in audit(measure(path, meant.printer), meant).findings if f.rule == "program.bed-edge")

    assert (edge.verdict is not Verdict.GO) == off
    assert edge.measured == pytest.approx(np.hypot(80, 80) + 30 - 0.225 - 120 if off else 0.0, abs=0.1)


def test_a_bed_of_many_corners_ends_at_its_outline(tmp_path: Path) -> None:
    """A bed without its front left corner: a disc 60 wide at (40, 40) reaches past the cut from (100, 0) to (0, 100)."""
    cut = replace(
        PRINTER.bed,
        shape="polygon",
        outline_mm=((100.0, 0.0), (220.0, 0.0), (220.0, 220.0), (0.0, 220.0), (0.0, 100.0)),
    )
    disc = MeantPart(name="disc", solid=posed(solid_of(cylinder(60, 2, 64)), (0, 0, -1)), count=1)
    meant = replace(MEANT, parts=(disc,), printer=replace(PRINTER, bed=cut))
    path = Program(skirt=False).write(tmp_path / "a.gcode", [placed(disc.solid, 40.0, 40.0, 0.0)], SETTINGS)
    edge = next(f for f in audit(measure(path, meant.printer), meant).findings if f.rule == "program.bed-edge")

    assert edge.verdict is not Verdict.GO
    assert edge.measured == pytest.approx((100 - 80) / np.sqrt(2) + 30 - 0.225, abs=0.1)

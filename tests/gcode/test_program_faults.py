"""Planted faults: each is named, by its own rule, and what is not wrong is not blamed."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

import planner.gcode
from planner.finding import Verdict
from planner.gcode import ExpectedPart, audit, measure
from planner.job import rule_kinds
from planner.layers.lines.paths import INFILL, INNER, OUTER, SOLID, SUPPORT
from planner.mesh import Solid
from tests.gcode.plate import (
    BORES,
    EXPECTED,
    HAND,
    MATERIAL,
    ONE_HAND,
    ONE_PLATE,
    PLATE,
    PRINTER,
    SETTINGS,
    bored,
    copies,
    findings,
    hand,
    part,
    put,
    rules,
)
from tests.gcode.writer import Program
from tests.shapes import Manifold, cylinder

Lines = list[str]


def _scaled(x: float, y: float, z: float) -> Solid:
    """Return the plate at other sizes along its axes."""
    return PLATE.scaled((x, y, z))


def _raised(mm: float, solid: Solid) -> Solid:
    """Return a solid without its lowest part: what is left hangs in the air."""
    body = solid.manifold
    assert body is not None
    return solid.with_body(body.trim_by_plane((0, 0, 1), mm), "")


def _before_end(*more: str) -> Callable[[Lines], Lines]:
    """Return how lines are put before the last two."""
    return lambda lines: [*lines[:-2], *more, *lines[-2:]]


def _half_way(*more: str) -> Callable[[Lines], Lines]:
    """Return how lines are put into the middle."""
    return lambda lines: [*lines[: len(lines) // 2], *more, *lines[len(lines) // 2 :]]


def _spline(lines: Lines) -> Lines:
    """Write one stretch with a word that is not known here."""
    start = len(lines) // 2
    return [*lines[:start], *(line.replace("G1 X", "G5 X") for line in lines[start : start + 40]), *lines[start + 40 :]]


def _swapped(lines: Lines) -> Lines:
    """Move what is laid below 1 mm behind all else."""
    low = [line for line in lines if re.search(r" Z0\.[2-9]", line) and line.startswith("G1 X")]
    return [*(line for line in lines if line not in set(low)), *low]


WIDE = bored(bores=((8.0, 8.0, 4.4), BORES[1]))
CAVE = bored() - cylinder(4.0, 20, 32).translate((22, 9, -5))
PARTLY = bored() + Manifold.cube((14, 3, 2)).translate((12, 16, 1))
LESS_WALL = bored() - Manifold.cube((1.2, 12, 3)).translate((38.8, 3, 1.0))

SOLIDS = {
    "a plate at 101 %": (copies(_scaled(1.01, 1.01, 1.01)), "program.scale"),
    "a plate at 99 %": (copies(_scaled(0.99, 0.99, 0.99)), "program.scale"),
    "all at 104 %": ([put(s, p) for s, p in ((PLATE.scaled(1.04), (60.0, 60.0, 0.0)), (HAND.scaled(1.04), (110.0, 60.0, 0.0)), (HAND.scaled(1.04), (60.0, 110.0, 0.0)))], "program.scale"),
    "1.04 in two axes": (copies(_scaled(1.04, 1.04, 1.0)), "program.stretch"),
    "1.03 along x": (copies(_scaled(1.03, 1.0, 1.0)), "program.stretch"),
    "1.04 along x and up": (copies(_scaled(1.04, 1.0, 1.04)), "program.stretch"),
    "20 % taller": (copies(_scaled(1.0, 1.0, 1.2)), "program.height"),
    "one hand 20 % taller": (copies(PLATE, HAND, HAND.scaled((1.0, 1.0, 1.2))), "program.height"),
    "a hand without its post": (copies(PLATE, part(hand(rib=False), "hand")), "program.height"),
    "begins 2 mm in mid-air": (copies(PLATE, HAND, _raised(2.0, HAND)), "program.air"),
    "begins 3 mm in mid-air": (copies(_raised(3.0, PLATE)), "program.air"),
    "bores of 5.2 mm filled": (copies(part(bored(bores=BORES[1:]), "plate")), "program.outside"),
    "bore of 3.2 mm filled": (copies(part(bored(bores=BORES[:1]), "plate")), "program.outside"),
    "bore of 5.2 mm at 4.4": (copies(part(WIDE, "plate")), "program.outside"),
    "slot filled": (copies(part(bored(slot=False), "plate")), "program.outside"),
    "slot filled half way up": (copies(part(PARTLY, "plate")), "program.outside"),
    "a bore too many": (copies(part(CAVE, "plate")), "program.lacks"),
    "a groove in a side": (copies(part(LESS_WALL, "plate")), "program.lacks"),
    "a copy missing": (copies()[:2], "program.parts"),
    "a copy too many": ([*copies(), put(HAND, (150.0, 150.0, 10.0))], "program.parts"),
    "another piece beside": ([*copies(), put(part(Manifold.cube((9, 9, 5)), "cube"), (150.0, 150.0, 10.0))], "program.parts"),
    "a hand mirrored": (copies(PLATE, HAND, HAND.mirrored()), "program.mirrored"),
    "the plate mirrored": (copies(PLATE.mirrored()), "program.mirrored"),
}  # fmt: skip
PROGRAMS = {
    "ends at 60 %": (Program(keep=lambda _copy, layer, _kind: layer < 12), "program.height"),
    "ends at 75 %": (Program(keep=lambda _copy, layer, _kind: layer < 15), "program.height"),
    "one copy ends early": (Program(keep=lambda copy, layer, _kind: copy != 1 or layer < 15), "program.height"),
    "stretched upward": (Program(up=1.2), "program.layer"),
    "lifted whole": (Program(raise_mm=2.0, skirt=False), "program.air"),
    "a layer left out": (Program(skip_layer=9), "program.gap"),
    "a layer left out of one copy": (Program(keep=lambda copy, layer, _kind: (copy, layer) != (1, 7)), "program.gap"),
    "no filament on five layers": (Program(keep=lambda _copy, layer, _kind: not 8 <= layer < 13), "program.gap"),
    "no outer contour on four layers": (
        Program(keep=lambda _copy, layer, kind: not (kind == OUTER and 8 <= layer < 12)),
        "program.lacks",
    ),
    "no infill": (Program(keep=lambda _copy, _layer, kind: kind not in (INFILL, SOLID)), "program.fill"),
    "one contour of three": (Program(keep=lambda _copy, _layer, kind: kind != INNER), "program.fill"),
    "a copy that slips by 1 mm": (
        Program(slip=lambda copy, layer: (1.0, 0.0) if copy == 0 and layer >= 10 else (0.0, 0.0)),
        "program.outside",
    ),
    "filament at 0.75": (Program(fed=lambda _copy, _layer: 0.75), "program.fed"),
    "filament at 0.5": (Program(fed=lambda _copy, _layer: 0.5), "program.fed"),
    "filament at 0.38": (Program(fed=lambda _copy, _layer: 0.38), "program.fed"),
    "filament at 1.4": (Program(fed=lambda _copy, _layer: 1.4), "program.fed"),
    "filament at half from layer 9 on": (Program(fed=lambda _copy, layer: 1.0 if layer < 9 else 0.5), "program.fed"),
    "M221 left at 70 %": (Program(also=("M221 S70",)), "program.fed"),
    "the fan never starts": (Program(fan_percent=0.0), "program.fan"),
    "the fan runs full": (Program(fan_percent=100.0), "program.fan"),
    "the fan stops half way": (Program(before={9: ("M107",)}), "program.fan"),
    "a move to X400": (Program(edited=_before_end("G1 X400 F6000")), "program.reach"),
    "a move to Y-40": (Program(start=("G1 Y-40 F6000",)), "program.reach"),
    "a move above the frame": (Program(edited=_before_end("G1 Z400 F600")), "program.reach"),
    "a move into the bed": (Program(edited=_half_way("G1 Z-0.5 F600")), "program.reach"),
    "through a finished piece": (Program(edited=_before_end("G0 X60 Y60 Z1", "G0 X70")), "program.strikes"),
    "low layers last": (Program(edited=_swapped, skirt=False), "program.strikes"),
    "off the bed": (Program(shift_mm=(-60.0, 0.0)), "program.bed-edge"),
    "nozzle hot": (Program(nozzle_c=275.0), "program.nozzle"),
    "nozzle cold": (Program(nozzle_c=150.0), "program.cold"),
    "nozzle off half way": (Program(before={9: ("M104 S0",)}), "program.cold"),
    "bed cold": (Program(bed_c=30.0), "program.bed"),
    "bed off half way": (Program(before={9: ("M140 S0",)}), "program.bed"),
    "heat set late": (Program(set_late=True), "program.nozzle"),
    "another tool is heated": (Program(also=("M104 T1 S235", "M104 T0 S20")), "program.cold"),
    "thicker layers": (Program(lift_mm=0.05), "program.layer"),
    "first layer too high": (Program(raise_mm=0.1), "program.first"),
    "too fast to melt": (Program(feeds_mm_s=dict.fromkeys((OUTER, INNER, SOLID, INFILL), 200.0)), "program.flow"),
    "G92 without a letter": (Program(before={9: ("G92",)}), "program.origin"),
    "a word for curves": (Program(edited=_spline), "program.words"),
}

AMONG = {
    "one copy ends early",
    "a layer left out of one copy",
    "a copy that slips by 1 mm",
    "through a finished piece",
    "low layers last",
    "off the bed",
    "ends at 60 %",
    "a layer left out",
    "no outer contour on four layers",
    "no infill",
    "one contour of three",
    "the fan stops half way",
}
"""Programs that are wrong about their pieces, on the whole plate; what is wrong with the others one small hand shows."""
ALONE = {
    "1.04 in two axes",
    "1.03 along x",
    "1.04 along x and up",
    "begins 3 mm in mid-air",
    "bore of 3.2 mm filled",
    "bore of 5.2 mm at 4.4",
    "slot filled",
    "slot filled half way up",
    "a bore too many",
    "a groove in a side",
    "the plate mirrored",
}
"""Pieces that are wrong without others beside them; those of the same rules that are left lie among right ones."""


@pytest.mark.parametrize("fault", SOLIDS)
def test_a_wrong_piece_is_named_by_its_rule(fault: str, tmp_path: Path) -> None:
    """A piece that is not the planned one, written by an honest writer."""
    solids, rule = SOLIDS[fault]
    solids, expected = (solids[:1], ONE_PLATE) if fault in ALONE else (solids, EXPECTED)
    no_support = Program(keep=lambda _copy, _layer, kind: kind != SUPPORT)

    assert rule in rules(no_support, solids, tmp_path, expected)


@pytest.mark.parametrize("fault", PROGRAMS)
def test_a_wrong_program_is_named_by_its_rule(fault: str, tmp_path: Path) -> None:
    """The planned pieces, written wrong."""
    program, rule = PROGRAMS[fault]
    solids, expected = (copies(), EXPECTED) if fault in AMONG else (copies()[1:2], ONE_HAND)

    assert rule in rules(replace(program), solids, tmp_path, expected)


def test_one_wrong_copy_of_two_blames_no_other(tmp_path: Path) -> None:
    """The taller hand is named; its twin and the plate are not."""
    solids, _ = SOLIDS["one hand 20 % taller"]
    found = findings(Program(), solids, tmp_path)

    assert {finding.part for finding in found if finding.rule == "program.height"} == {"hand"}
    assert not any(finding.part == "plate" for finding in found)


def test_a_filled_bore_is_told_with_its_place_and_size(tmp_path: Path) -> None:
    """A disc of 5.2 mm less 0.15 mm of edge; 7 solid layers of it above the lowest, and infill in the other 12."""
    solids, _ = SOLIDS["bores of 5.2 mm filled"]
    found = next(one for one in findings(Program(), solids, tmp_path) if one.rule == "program.outside")
    area, wide = re.search(r"most: ([0-9.]+) mm² over ([0-9.]+) x", found.why).groups()  # type: ignore[union-attr]
    assert found.part == "plate"
    assert float(area) == pytest.approx(3.1416 * (2.6 - 0.15) ** 2, rel=0.05)
    assert float(wide) == pytest.approx(5.2 - 0.3, abs=0.15)
    assert float(area) * 7 * 0.2 < (found.measured or 0.0) < float(area) * 19 * 0.2


def test_a_unit_mistake_is_told_from_a_scale(tmp_path: Path) -> None:
    """Parts at one tenth: cm and mm mixed up, not a scale of 10 %."""
    block = part(Manifold.cube((100, 60, 40)) + Manifold.cube((40, 60, 60)), "block")
    expected = replace(EXPECTED, parts=(replace(EXPECTED.parts[0], solid=block),))

    assert "program.unit" in rules(
        Program(skirt=False), [put(block.scaled(0.1), (60.0, 60.0, 0.0))], tmp_path, expected
    )


def test_a_temperature_for_every_layer_is_judged_by_the_worst(tmp_path: Path) -> None:
    """More than a hundred temperatures, each for less than a hundredth of the filament: judged, and no crash."""
    path = Program().write(tmp_path / "a.gcode", copies(), SETTINGS)
    swept = replace(measure(path, PRINTER), nozzle_c={180.0 + k: 1.0 for k in range(150)})
    worst_of = {f.rule: f for f in audit(swept, EXPECTED).findings}["program.nozzle"]

    assert MATERIAL.nozzle_c.high < 329.0
    assert (worst_of.verdict, worst_of.measured) == (Verdict.NO_GO, 329.0)


@pytest.mark.parametrize("filled", [False, True])
def test_a_tunnel_that_is_filled_is_told_from_its_support(filled: bool, tmp_path: Path) -> None:
    """A tunnel of 7 x 5 mm that stands on support: support in it passes; filled, it lacks the walls of the tunnel."""
    block = Manifold.cube((20, 10, 8))
    tunnel = part(block - Manifold.cube((7, 20, 5)).translate((6, -5, 0)), "tunnel")
    expected = replace(EXPECTED, parts=(ExpectedPart(name="tunnel", solid=tunnel, count=1, support=True),))
    solid = part(block, "tunnel") if filled else tunnel

    broken = rules(Program(), [put(solid, (60.0, 60.0, 30.0))], tmp_path, expected)

    assert ("program.lacks" in broken) if filled else not broken


def test_every_rule_about_programs_has_its_row_in_the_table_of_rules() -> None:
    """What the room's files name as a rule stands in profiles/rules, and nothing else does."""
    room = Path(planner.gcode.__file__).parent
    named = {
        name
        for path in room.rglob("*.py")
        for name in re.findall(r'"(program\.[a-z-]+)"', path.read_text(encoding="utf-8"))
    }

    assert named == {name for name in rule_kinds() if name.startswith("program.")}

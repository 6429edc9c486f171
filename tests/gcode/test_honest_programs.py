"""Honest programs pass, whatever their way of writing: twenty conventions, each alone, then several together."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.finding import Verdict, worst
from planner.gcode import audit, measure
from tests.gcode.copies.layer_lines import checksum
from tests.gcode.plate import (
    EXPECTED,
    HAND,
    ONE_HAND,
    PLATE,
    PRINTER,
    SETTINGS,
    WEDGE,
    WITH_WEDGE,
    copies,
    findings,
    turned,
)
from tests.gcode.writer import Program

PARK = ("G91", "G1 Z5 F600", "G90", "G0 X0 Y210 F6000", "M104 S0", "M140 S0", "M107", "M84")
PURGE = ("G1 X5 Y5 Z0.3 F6000", "G1 X5 Y150 E9 F1200", "G1 X5.4 Y5 E9 F1200", "G1 Z2 F600", "G92 E0")
HONEST = {
    "plain": Program(),
    "absolute filament": Program(relative=False),
    "inches": Program(inches=True),
    "no skirt, cooler": Program(skirt=False, nozzle_c=225.0),
    "arcs by centre": Program(arcs="centre"),
    "arcs by radius, absolute": Program(arcs="radius", relative=False),
    "arcs in inches": Program(arcs="centre", inches=True),
    "brim": Program(brim_n=8),
    "purge lines": Program(start=PURGE),
    "piece by piece": Program(in_turn=True, skirt=False),
    "other line order": Program(backwards=True),
    "nozzle lifted on travel": Program(hop_mm=0.4, rapid=True),
    "drawn back by G10 and G11": Program(retract="G"),
    "never drawn back": Program(retract=""),
    "filament in mm3": Program(volume=True, also=("M200 D1.75",)),
    "E set to zero in every layer": Program(relative=False, reset=True),
    "parked at the end": Program(end=PARK),
    "tools named": Program(also=("T0", "M104 T1 S0", "M106 P1 S255", "M109 T0 S235")),
    "small letters, no spaces": Program(edited=lambda lines: [line.lower().replace(" ", "") for line in lines[1:]]),
    "line numbers and checksums": Program(
        edited=lambda lines: [checksum(f"N{n} {line}") for n, line in enumerate(lines) if not line.startswith(";")]
    ),
    "comments and blank lines": Program(
        edited=lambda lines: [text for line in lines for text in (f"{line} ; X500 Y500", "(M104 S0)", "")]
    ),
    "fan from the fifth layer, in steps": Program(fan_percent=30.0, before={5: ("M106 S115",)}),
    "five percent less filament": Program(fed=lambda _copy, _layer: 0.95),
    "M221 takes back what E has too much": Program(fed=lambda _copy, _layer: 1.25, also=("M221 S80",)),
    "modes in one block": Program(
        edited=lambda lines: [line.replace("G21", "G17 G21 G40 G49 G80 G90 G94") for line in lines]
    ),
    "E relative by G91 as G90 takes it back": Program(
        relative=False, retract="", end=("G91", "G1 E-2 F1800", "G1 Z5 F600", "G90", "M84")
    ),
}

AMONG = {"plain", "arcs by centre", "arcs by radius, absolute", "brim", "piece by piece", "nozzle lifted on travel"}
"""Ways that hang on how many pieces lie beside each other; a way of writing a line shows on one small hand."""


@pytest.mark.parametrize("way", HONEST)
def test_an_honest_program_passes_in_every_convention(way: str, tmp_path: Path) -> None:
    """Nothing is said against it."""
    solids, expected = (copies(), EXPECTED) if way in AMONG else (copies()[1:2], ONE_HAND)

    assert findings(replace(HONEST[way]), solids, tmp_path, expected) == []


@pytest.mark.parametrize("seed", range(2))
def test_an_honest_program_passes_wherever_its_pieces_lie(seed: int, tmp_path: Path) -> None:
    """Other places and turns, a slanted piece among them; every copy is found, and every layer of it compared."""
    solids = copies(PLATE, HAND, HAND, WEDGE, places=turned(seed))
    path = Program(arcs="centre", backwards=seed == 1).write(tmp_path / "a.gcode", solids, SETTINGS)
    found = audit(measure(path, PRINTER), WITH_WEDGE)

    assert worst(found.findings) is Verdict.GO, [f.why for f in found.findings if f.verdict is not Verdict.GO]
    assert sorted(match.part for match in found.matching.matches) == ["hand", "hand", "plate", "wedge"]
    assert all(abs(match.across_share - 1.0) < 0.004 for match in found.matching.matches)
    assert any("all 4 copies" in finding.why and "85 layers" in finding.why for finding in found.findings)


def test_a_mirrored_side_passes_against_a_mirrored_plan(tmp_path: Path) -> None:
    """A left device's hands are mirrored in plan and program alike."""
    left = HAND.mirrored()
    parts = (EXPECTED.parts[0], replace(EXPECTED.parts[1], solid=left))

    assert findings(Program(), copies(PLATE, left, left), tmp_path, replace(EXPECTED, parts=parts)) == []

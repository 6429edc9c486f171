"""Measures: volume, extents, time and layers of programs whose answers are known; damage is one sentence."""

from __future__ import annotations

import math
import sys
from pathlib import Path

import numpy as np
import pytest

from planner.errors import ProgramError
from planner.gcode import Measured, measure
from planner.job import read_printer

PRINTER = read_printer("bench-220", Path())
FILAMENT_MM2 = math.pi * 1.75**2 / 4


def _measured(text: str, folder: Path) -> Measured:
    """Measure a text."""
    path = folder / "a.gcode"
    path.write_text(text, encoding="utf-8")
    return measure(path, PRINTER)


def _boxes(layers_n: int, side: float, height: float, feed: float = 2400) -> str:
    """Return squares on top of each other, with a lift of the nozzle's filament before each."""
    lines = ["; LAYER_COUNT:999", "G21 G90", "M83", "M140 S75", "M104 S235"]
    for k in range(layers_n):
        lines += [f"G1 X80 Y80 Z{height * (k + 1):.3f} F6000", "G1 E-1 F1800", "G1 E1 F1800"]
        lines += [
            f"G1 X{x} Y{y} E{side * 0.03:.5f} F{feed:g}"
            for x, y in ((80 + side, 80), (80 + side, 80 + side), (80, 80 + side), (80, 80))
        ]
    return "\n".join(lines) + "\n"


def test_boxes_give_volume_extents_layers_and_temperatures(tmp_path: Path) -> None:
    """10 squares of 40 mm: filament 10 x 4 x 40 x 0.03 exactly, what was drawn back not counted twice; a comment lies."""
    found = _measured(_boxes(10, 40.0, 0.2), tmp_path)

    assert found.filament_mm == pytest.approx(48.0, rel=1e-6)
    assert found.deposited_mm3 == pytest.approx(48.0 * FILAMENT_MM2, rel=1e-6)
    assert found.size_mm == pytest.approx([40, 40, 1.8], rel=1e-4)
    assert found.layers_n == 10
    assert list(found.nozzle_c) == [235.0]
    assert list(found.bed_c) == [75.0]


def test_time_is_that_of_trapezoids_by_hand(tmp_path: Path) -> None:
    """From rest to rest over s at v with a: s/v + v/a; four sides with corners: within 0.5 % of a fine integration."""
    line = _measured("M83\nM104 S235\nG1 X0 Y0 Z0.2 F6000\nG4 P1\nG1 X100 E3 F3000\nG4 P1\n", tmp_path)
    first = math.sqrt(0.2**2) / 1500  # the lift of 0.2 mm never reaches its speed: 2 sqrt(s / a)
    assert line.duration_s == pytest.approx(2 * math.sqrt(0.2 / 1500) + 100 / 50 + 50 / 1500 + 0.002, abs=first + 1e-3)

    square = _measured(
        "M83\nM104 S235\nG1 X80 Y80 Z0.2 F6000\nG4 P1\n"
        + "".join(f"G1 X{x} Y{y} E1 F2400\n" for x, y in ((120, 80), (120, 120), (80, 120), (80, 80)))
        + "G4 P1\n",
        tmp_path,
    )
    alone = _measured("M83\nM104 S235\nG1 X80 Y80 Z0.2 F6000\nG4 P1\nG1 X80.1 E.01 F2400\n", tmp_path)
    d, a, v = 0.02, 1500.0, 40.0
    corner = math.sqrt(a * d * math.sin(math.pi / 4) / (1 - math.sin(math.pi / 4)))
    meant, dt, pos, speed = 0.0, 1e-5, 0.0, 0.0
    for start, end in ((0.0, corner), (corner, corner), (corner, corner), (corner, 0.0)):
        pos, speed = 0.0, start
        while pos < 40.0 - 1e-9:  # independent: step by step, brake when the rest of the side asks for it
            brake = (speed**2 - end**2) / (2 * a) >= 40.0 - pos
            speed = max(speed - a * dt, end, 1e-3) if brake else min(speed + a * dt, v)
            pos += speed * dt
            meant += dt
    start_s = alone.duration_s - 2 * math.sqrt(0.1 / a)
    assert square.duration_s - start_s - 0.001 == pytest.approx(meant, rel=0.005)


def test_a_spiral_is_counted_in_turns(tmp_path: Path) -> None:
    """A wall that climbs all the time has as many layers as turns, and no steps in height."""
    n, turns = 90, 12
    lines = ["M83", "M104 S235", "G1 X120 Y100 Z0.2 F6000"]
    for k in range(1, n * turns + 1):
        angle = 2 * math.pi * k / n
        lines.append(
            f"G1 X{100 + 20 * math.cos(angle):.4f} Y{100 + 20 * math.sin(angle):.4f} Z{0.2 + 0.2 * k / n:.4f} E0.05 F1800"
        )
    found = _measured("\n".join(lines) + "\n", tmp_path)

    assert found.layers_n == turns
    assert found.size_mm == pytest.approx([40, 40, 2.4], rel=1e-3)


def test_peak_flow_is_speed_times_bead(tmp_path: Path) -> None:
    """0.03 mm of 1.75 mm filament a mm at 40 mm/s: 40 x 0.03 x 2.405 mm3/s."""
    assert _measured(_boxes(2, 40.0, 0.2), tmp_path).peak_flow_mm3_s == pytest.approx(
        40 * 0.03 * FILAMENT_MM2, rel=1e-3
    )


@pytest.mark.parametrize(
    ("raw", "word"),
    [
        (b"", "lays filament"),
        (b"G1 X10 F600\n", "lays filament"),
        (bytes(range(256)) * 300, "packed or binary"),
        (b"GCDE\x01\x00\x00\x00" + b"\x00\x9c\xff" * 5000, "packed or binary"),
        (b"PK\x03\x04" + b"\x07\xf1\x92" * 5000, "packed or binary"),
    ],
    ids=["empty", "no filament", "all bytes", "packed", "zipped"],
)
def test_what_is_no_program_is_one_sentence(raw: bytes, word: str, tmp_path: Path) -> None:
    """Empty, without filament, binary or zipped: said, with what to do."""
    path = tmp_path / "a.gcode"
    path.write_bytes(raw)
    with pytest.raises(ProgramError, match=word):
        measure(path, PRINTER)


def test_a_missing_file_is_one_sentence(tmp_path: Path) -> None:
    """No such file."""
    with pytest.raises(ProgramError, match="no such file"):
        measure(tmp_path / "none.gcode", PRINTER)


def test_chunks_do_not_matter(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Read in bits of 1,000 bytes a program measures the same."""
    whole = _measured(_boxes(12, 30.0, 0.2), tmp_path)
    monkeypatch.setattr(sys.modules["planner.gcode.reading.program_file"], "CHUNK_BYTES", 1000)
    bits = _measured(_boxes(12, 30.0, 0.2), tmp_path)

    assert bits.duration_s == pytest.approx(whole.duration_s)
    assert bits.filament_mm == pytest.approx(whole.filament_mm)
    assert np.array_equal(bits.heights_mm, whole.heights_mm)


@pytest.mark.parametrize(("start", "by_g"), [("M83\nG90", False), ("M82\nG91\nG90", True)])
def test_filament_that_can_be_read_two_ways_is_read_the_way_that_fits_the_nozzle(
    start: str, by_g: bool, tmp_path: Path
) -> None:
    """Relative E under G90 after M83, and squares in G91 after M82: both lay 10 x 4 x 40 x 0.03 mm, and say which way."""
    text = _boxes(10, 40.0, 0.2).replace("M83", start)
    if by_g:
        sides = ("X40", "Y40", "X-40", "Y-40")
        square = "\n".join(f"G1 {side} E1.2 F2400" for side in sides)
        text = "G90\nM82\nM104 S235\n" + "".join(
            f"G90\nG1 X80 Y80 Z{0.2 * (k + 1):.2f} F6000\nG91\n{square}\n" for k in range(10)
        )
    found = _measured(text, tmp_path)

    assert found.filament_mm == pytest.approx(48.0, rel=1e-6)
    assert (found.doubts.e_blocks_n > 0, found.doubts.e_by_g) == (True, by_g)


def test_reach_counts_travel_and_the_nozzle_is_followed_through_what_stands(tmp_path: Path) -> None:
    """A travel to X 200 counts; a way across at 0.5 mm through squares 2 mm high strikes 1.5 mm deep."""
    found = _measured(_boxes(10, 40.0, 0.2) + "G0 X200 Y100 Z30\nG0 Z0.5\nG0 X60\n", tmp_path)

    assert found.reach_mm[1].tolist() == [200.0, 120.0, 30.0]
    assert found.struck_mm[0] == pytest.approx(1.5, abs=1e-6)
    assert found.struck_mm[1] == pytest.approx(120.0, abs=0.8)
    assert _measured(_boxes(10, 40.0, 0.2) + "G0 X200 Y100 Z30\nG0 X60\n", tmp_path).struck_mm[0] == 0.0

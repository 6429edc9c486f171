"""Motion: moves of a head, words of a program, cords and linkages."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from planner.gcode.reading.interpreter import moves_of
from planner.gcode.reading.machine_state import X0, X1, Z0, Z1, start_state
from planner.gcode.reading.program_words import parse
from planner.layers.head_motion import move_times_s
from planner.mechanism.force.friction import capstan_ratio
from tests.accuracy.row import Row
from tests.mechanism.joints.test_linkage import DRAWN_DEG, four_bar, rocker_deg

PROGRAMS = (
    ("a whole circle of radius 10", "G1 X10 Y0 F600\nG2 X10 Y0 I-10 J0\n", 20 * math.pi),
    ("a quarter of a helix, radius 10, rise 4", "G1 X10 Y0 F600\nG3 X0 Y10 Z4 I-10 J0\n", math.hypot(5 * math.pi, 4)),
    ("an inch (G20)", "G20\nG1 X0 F60\nG1 X1 F60\n", 25.4),
    ("two steps of 3 mm (G91)", "G91\nG1 X0 F60\nG1 X3\nG1 X3\n", 6.0),
)


def _length(text: str) -> float:
    """Return the length of a program's moves after the first."""
    values, codes, _, _ = parse(np.frombuffer(text.encode(), dtype=np.uint8), last=True)
    moves = moves_of(values, codes, start_state(1500.0))
    ways = np.linalg.norm(moves[:, X1 : Z1 + 1] - moves[:, X0 : Z0 + 1], axis=1)
    return float(ways[1:].sum()) if ways[0] > 9.0 else float(ways.sum())


def _seconds(length_mm: float, speed_mm_s: float, pull_mm_s2: float) -> float:
    """Return how long a straight move takes."""
    path = np.array([(0.0, 0.0), (length_mm, 0.0)])
    return float(move_times_s(path, np.array([speed_mm_s]), pull_mm_s2, 0.02, 0.0)[0].sum())


def _rocker(turned_deg: float) -> float:
    """Return how far the rocker of the four-bar turns with its crank."""
    return float(four_bar().values_at({"base-crank": turned_deg})["base-rocker"])


def motion_rows() -> Iterator[Row]:
    """Yield straight moves, arcs, inches, capstans and a four-bar."""
    for length, speed, pull in (
        (100.0, 60.0, 1000.0),
        (40.0, 150.0, 3000.0),
        (1.0, 60.0, 1000.0),
        (0.2, 100.0, 5000.0),
    ):
        full = length >= speed**2 / pull
        yield Row(
            source="biagiotti",
            what=f"{length:g} mm at {speed:g} mm/s, {pull:g} mm/s2",
            expected=length / speed + speed / pull if full else 2 * math.sqrt(length / pull),
            unit="s",
            within=1e-6,
            ours=lambda length=length, speed=speed, pull=pull: _seconds(length, speed, pull),  # type: ignore[misc]
        )
    for what, text, mm in PROGRAMS:
        yield Row(
            source="iso6983",
            what=what,
            expected=mm,
            unit="mm",
            within=max(1e-6, 1e-4 * mm),
            ours=lambda text=text: _length(text),  # type: ignore[misc]
        )
    for friction, deg in ((0.1, 90.0), (0.2, 90.0), (0.2, 180.0), (0.3, 180.0)):
        yield Row(
            source="eytelwein",
            what=f"friction {friction:g} over {deg:g} degrees",
            expected=math.exp(friction * math.radians(deg)),
            unit="",
            within=1e-9,
            ours=lambda friction=friction, deg=deg: capstan_ratio(math.radians(deg), friction),  # type: ignore[misc]
        )
    for turned in (-60.0, 13.0, 75.0):
        yield Row(
            source="freudenstein",
            what=f"rocker of a four-bar, crank turned {turned:g} degrees",
            expected=rocker_deg(DRAWN_DEG + turned) - rocker_deg(DRAWN_DEG),
            unit="deg",
            within=1e-3,
            ours=lambda turned=turned: _rocker(turned),  # type: ignore[misc]
        )

"""The plate of the audit's tests: a bored plate of 40 mm, two chiral hands and a wedge, and what the plan expects."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np

from planner.finding import Finding, Verdict
from planner.gcode import Expected, ExpectedPart, audit, measure
from planner.job import read_material, read_printer, read_settings
from planner.mesh import Solid, placed, posed
from tests.gcode.writer import Program
from tests.shapes import Manifold, cylinder, solid_of

HERE = Path()
PRINTER, MATERIAL = read_printer("bench-220", HERE), read_material("petg", HERE)
SETTINGS = read_settings("standard-0.4", HERE)
BORES = ((8.0, 8.0, 5.2), (33.0, 8.0, 3.2))
DOWN = (0, 0, -1)


def bored(
    *, bores: tuple[tuple[float, float, float], ...] = BORES, slot: bool = True, size: tuple[float, ...] = (40, 24, 4)
) -> Manifold:
    """Return a plate 40 mm long with bores (x, y, diameter), a slot, and a notch in one corner."""
    body = Manifold.cube(size) - Manifold.cube((9, 7, 20)).translate((31, 17, -1))
    for x, y, diameter in bores:
        body -= cylinder(diameter, 20, 48).translate((x, y, -5))
    return body - Manifold.cube((14, 3, 20)).translate((12, 16, -1)) if slot else body


def hand(*, rib: bool = True) -> Manifold:
    """Return a piece that has a left and a right: an L with a post and a bore."""
    body = Manifold.cube((18, 6, 2.6)) + Manifold.cube((6, 15, 2.6))
    body = body - cylinder(3, 20, 32).translate((14, 3, -5))
    return body + Manifold.cube((4, 4, 4)).translate((1, 10, 0)) if rib else body


def wedge() -> Manifold:
    """Return a wedge: a cube of 10 mm with one slanted face, that leans inward as it rises."""
    return Manifold.hull_points(
        [(0, 0, 0), (14, 0, 0), (14, 10, 0), (0, 10, 0), (0, 0, 5), (9, 0, 5), (9, 10, 5), (0, 10, 5)]
    )


def part(body: Manifold, name: str) -> Solid:
    """Return a body in its pose."""
    return posed(solid_of(body, name), DOWN)


PLATE, HAND, WEDGE = part(bored(), "plate"), part(hand(), "hand"), part(wedge(), "wedge")
EXPECTED = Expected(
    plate=1,
    parts=(
        ExpectedPart(name="plate", solid=PLATE, count=1),
        ExpectedPart(name="hand", solid=HAND, count=2),
    ),
    printer=PRINTER,
    material=MATERIAL,
    settings=SETTINGS,
    duration_s=None,
    mass_g=None,
)
WITH_WEDGE = Expected(
    plate=1,
    parts=(*EXPECTED.parts, ExpectedPart(name="wedge", solid=WEDGE, count=1)),
    printer=PRINTER,
    material=MATERIAL,
    settings=SETTINGS,
    duration_s=None,
    mass_g=None,
)
ONE_HAND = replace(EXPECTED, parts=(replace(EXPECTED.parts[1], count=1),))
"""What is asked of the program alone, not of its pieces among each other, takes one small piece."""
ONE_PLATE = replace(EXPECTED, parts=EXPECTED.parts[:1])
PLACES = ((60.0, 60.0, 0.0), (110.0, 60.0, 37.0), (60.0, 110.0, 200.0), (110.0, 110.0, 90.0))
_PUT: dict[tuple[int, tuple[float, float, float]], tuple[Solid, Solid]] = {}


def put(solid: Solid, place: tuple[float, float, float]) -> Solid:
    """Return a solid at a place of the bed; the same one for the same place, so that it is laid out once."""
    key = id(solid), place
    if key not in _PUT:
        _PUT[key] = solid, placed(solid, *place)
    return _PUT[key][1]


def copies(
    plate: Solid = PLATE,
    first: Solid = HAND,
    second: Solid = HAND,
    *more: Solid,
    places: tuple[tuple[float, float, float], ...] = PLACES,
) -> list[Solid]:
    """Return the plate's copies at their places; other solids stand for wrong ones."""
    return [put(solid, place) for solid, place in zip((plate, first, second, *more), places, strict=False)]


def findings(program: Program, solids: list[Solid], folder: Path, expected: Expected = EXPECTED) -> list[Finding]:
    """Return what the audit says of a program that does not pass."""
    path = program.write(folder / "a.gcode", solids, SETTINGS)
    found = audit(measure(path, expected.printer), expected).findings
    return [finding for finding in found if finding.verdict is not Verdict.GO]


def rules(program: Program, solids: list[Solid], folder: Path, expected: Expected = EXPECTED) -> set[str]:
    """Return the rules that a program breaks."""
    return {finding.rule for finding in findings(program, solids, folder, expected)}


def turned(seed: int) -> tuple[tuple[float, float, float], ...]:
    """Return the places in another order, each turned otherwise."""
    rng = np.random.default_rng(seed)
    order = rng.permutation(len(PLACES))
    return tuple((*PLACES[k][:2], float(round(rng.uniform(0, 360), 1))) for k in order)

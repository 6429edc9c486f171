"""Readings: the file in which a person writes what the coupon measures, and what stands in it afterwards."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import get_args

from planner.calibrate.coupon import CouponFeature, FeatureKind
from planner.errors import ProfileError
from planner.job import Table, read_toml

KINDS: tuple[FeatureKind, ...] = get_args(FeatureKind)
PASSED: dict[FeatureKind, str] = {"wall": "whole", "gap": "open", "bridge": "clean", "overhang": "clean"}
"""Kinds that came out or did not, and the word for it."""
FAR = 0.25
"""A reading farther than this share (or 1.5 mm) from the drawn size is a slip of the unit or of the line."""
HEAD = """\
# What the coupon measured. Fill in what you can and leave out the rest; at least three bores of each kind.
# Bores: the largest drill shank or pin gauge that goes in by hand, or calipers inside. Pins, length, breadth,
# height: calipers outside. All mm.
# Walls: whole = true where it stands straight and solid. Gaps: open = true where a strip of paper (0.1 mm) passes.
# Bridges and overhangs: clean = true where no line below sags or curls by more than its own height.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One filled-in line: a size in mm, or for walls and gaps whether it came out."""

    feature: CouponFeature
    measured_mm: float | None
    passed: bool | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """One coupon's readings, and what it was printed with."""

    printer: str
    material: str
    nozzle_mm: float
    taken: date
    readings: tuple[Reading, ...]


def readings_text(features: tuple[CouponFeature, ...], printer: str, material: str, nozzle_mm: float, day: date) -> str:
    """Return the file to fill in."""
    lines = [HEAD, f'printer = "{printer}"', f'material = "{material}"', f"nozzle_mm = {nozzle_mm:g}", f"taken = {day}"]
    for one in features:
        wanted = f"# {PASSED[one.kind]} = true" if one.kind in PASSED else "# measured_mm = 0.00"
        lines += ["", "[[reading]]", f'feature = "{one.name}"', f'kind = "{one.kind}"']
        lines += [f"drawn_mm = {one.drawn_mm:g}", f"inside_mm = {one.inside_mm:.4f}", wanted]
    return "\n".join(lines) + "\n"


def read_readings(path: Path) -> Readings:
    """Read a filled-in file.

    Raises
    ------
    ProfileError
        It cannot be read, names an unknown kind, or a reading cannot be of that feature.
    """
    table = read_toml(path, ProfileError)
    found = Readings(
        printer=table.text("printer"),
        material=table.text("material"),
        nozzle_mm=table.number("nozzle_mm", high=3.0, above=True),
        taken=table.day("taken") or date(1, 1, 1),
        readings=tuple(_reading(one) for one in table.tables("reading")),
    )
    if not table.has("taken"):
        table.refuse("taken", "it is missing", "write the day, as taken = 2026-11-25")
    table.done()
    return found


def _reading(table: Table) -> Reading:
    """Read one line."""
    kind = table.word("kind", KINDS)
    drawn = table.number("drawn_mm", high=1000.0, above=True)
    feature = CouponFeature(
        name=table.text("feature"),
        kind=kind,
        drawn_mm=drawn,
        inside_mm=table.number_or("inside_mm", drawn, high=1000.0),
    )
    measured, passed = None, None
    if kind in PASSED:
        key = PASSED[kind]
        passed = table.flag(key, default=False) if table.has(key) else None
    elif table.has("measured_mm"):
        measured = table.number("measured_mm", high=1000.0, above=True)
        if abs(measured - drawn) > max(1.5, FAR * drawn):
            table.refuse(
                "measured_mm", f"{measured:g} mm cannot be {feature.name}, drawn {drawn:g} mm", "measure again, in mm"
            )
    table.done()
    return Reading(feature=feature, measured_mm=measured, passed=passed)

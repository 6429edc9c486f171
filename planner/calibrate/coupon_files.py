"""The coupon's two files: the mesh, and the form for its readings, which is never written over once filled in."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from planner.calibrate.coupon import Coupon
from planner.calibrate.coupon_readings import readings_text
from planner.mesh import write_stl
from planner.whole_file import write_text

MESH, READINGS, READINGS_NEW = "coupon.stl", "readings.toml", "readings-new.toml"


def write_coupon(
    folder: Path, made: Coupon, *, printer: str, material: str, nozzle_mm: float, day: date
) -> tuple[Path, Path]:
    """Write both files and return their paths; a form that is filled in stays, with a new one next to it."""
    folder.mkdir(parents=True, exist_ok=True)
    mesh, readings = folder / MESH, folder / READINGS
    write_stl(mesh, [made.solid])
    text = readings_text(made.features, printer, material, nozzle_mm, day)
    if readings.exists() and _undated(readings.read_text(encoding="utf-8", errors="replace")) != _undated(text):
        readings = folder / READINGS_NEW
    write_text(readings, text)
    return mesh, readings


def _undated(text: str) -> list[str]:
    """Return the lines of a form without its date: a form of yesterday that is still empty may be replaced."""
    return [line for line in text.splitlines() if not line.startswith("taken = ")]

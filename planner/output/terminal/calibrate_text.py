"""What a calibration found, in a terminal."""

from __future__ import annotations

from collections.abc import Sequence

from rich.console import Console
from rich.table import Table

from planner.calibrate import FamilyRisk, Fitted, Logged, Readings
from planner.job import Printer
from planner.output.terminal.terminal import notes
from planner.sourced import Sourced


def show_fitted(console: Console, before: Printer, after: Printer, found: Fitted, made_for: Readings) -> None:
    """Print each offset before and now, with its interval."""
    title = f"{after.name}, measured in {made_for.material} on {made_for.taken}"
    table = Table(title=title, title_justify="left", box=None)
    for name in ("", "before", "now", "95 % between"):
        table.add_column(name, justify="left" if not name else "right")
    rows = (
        ("upright bores print smaller by", before.undersize.upright_mm, found.upright_mm),
        ("horizontal bores print smaller by", before.undersize.lying_mm, found.lying_mm),
        ("pins print smaller by", None, found.pin_mm),
        ("thinnest wall", None, found.least_wall_mm),
        ("smallest gap that stays open", before.least_gap_mm, found.least_gap_mm),
        ("longest bridge", None, found.bridge_mm),
        ("steepest lean from vertical (deg)", None, found.lean_deg),
        *((f"size along {axis} (%)", None, value) for axis, value in found.scales_percent.items()),
    )
    for name, old, new in rows:
        unit = "" if "%" in name or "deg" in name else " mm"
        _row(table, name, old, new, unit)
    console.print(table)
    notes(console, "Notes", found.notes)
    if found.lean_deg is not None:
        console.print(f"In the job: [settings] self_supporting_deg = {found.lean_deg.value:.0f}", markup=False)


def show_logged(console: Console, before: Printer, found: Logged, families: Sequence[FamilyRisk]) -> None:
    """Print what the log says."""
    table = Table(title=f"\n{found.prints_n} plates logged, {found.hours:.0f} h", title_justify="left", box=None)
    for name in ("", "before", "now", "between"):
        table.add_column(name, justify="left" if not name else "right")
    _row(table, "actual hours / planned hours", before.time_ratio, found.time_ratio, "")
    _row(table, "actual grams / planned grams", before.mass_ratio, found.mass_ratio, "")
    _row(table, "failures per hour", before.failure_per_hour, found.failure_per_hour, "")
    _row(table, "share of pieces printed again", None, found.scrap_share, "")
    for one in families:
        _row(table, f"{one.name}: failures / common rate", None, one.ratio, "")
    console.print(table)
    causes = ", ".join(f"{n} x {cause}" for cause, n in found.causes)
    console.print(f"{found.failed_n} failed" + (f": {causes}" if causes else ""), markup=False)
    notes(console, "Notes", found.notes)


def _row(table: Table, name: str, old: Sourced | None, new: Sourced | None, unit: str) -> None:
    """Add one row."""
    cells = ("-", "-") if new is None else (f"{new.value:.3f}{unit}", f"{new.low:.3f} and {new.high:.3f}")
    table.add_row(name, "-" if old is None else f"{old.value:.3f}{unit}", *cells)

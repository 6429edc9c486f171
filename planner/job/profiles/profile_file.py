"""Profiles: printers, materials, settings, limits, places; shipped ones by name, a user's own by path."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import TypeVar

from planner.errors import ProfileError
from planner.job.file.table import Table
from planner.job.file.toml_file import read_toml
from planner.job.profiles.bed_table import read_bed
from planner.job.profiles.environments import Environment
from planner.job.profiles.limits import Limits, own_limit
from planner.job.profiles.material import (
    FAN_PERCENT,
    MODULUS_MPA,
    POISSON_RATIO,
    WARP,
    Material,
    modulus_across_from,
    service_from,
    shear_from,
)
from planner.job.profiles.print_settings import Settings
from planner.job.profiles.printer import Calibration, GoesOn, Printer, Undersize
from planner.job.profiles.rule_kind import rule_limits
from planner.job.profiles.shipped import profile_path, shipped
from planner.sourced import Sourced

Record = TypeVar("Record")
STRENGTH_LEAST_MPA = 0.01
"""What is weaker or softer than this is no solid: a slip."""
STRENGTH_MOST_MPA = 1000.0
"""No plastic that a nozzle lays is stronger, with endless carbon fibre in it either (some 800 MPa, from memory)."""
MODULUS_MOST_MPA = 250_000.0
"""Stiffer than steel (210 GPa) is a slip."""
UNDERSIZE_MM = -0.5, 1.5
"""What a bore may print smaller by, far beyond any coupon: a printer that is off by more prints no device."""
NOZZLE_LEAST_C = 50.0
"""Nothing that is solid in a room melts in a colder nozzle: polycaprolactone, at 60 °C, comes first (from memory)."""


def _open(kind: str, name: str, base: Path) -> tuple[Table, str]:
    """Return a profile's table and its name."""
    path = profile_path(kind, name, base)
    return read_toml(path, ProfileError), path.stem


def _record(kind: str, name: str, base: Path, read: Callable[[Table, str], Record]) -> Record:
    """Return what a profile says; a shipped one is read once, as answers and remedies load a job again and again."""
    path = profile_path(kind, name, base)
    return _shipped(path, read) if path.is_relative_to(shipped("profiles")) else _own(path, read)


@cache
def _shipped(path: Path, read: Callable[[Table, str], Record]) -> Record:
    """Read a shipped profile, once."""
    return _own(path, read)


def _own(path: Path, read: Callable[[Table, str], Record]) -> Record:
    """Read a profile."""
    return read(read_toml(path, ProfileError), path.stem)


def read_printer(name: str, base: Path) -> Printer:
    """Read a printer profile."""
    return _record("printers", name, base, _printer)


def _printer(table: Table, stem: str) -> Printer:
    """Read a printer's keys."""
    corner = (
        table.sourced_or_none("corner_deviation_mm", high=5.0),
        table.sourced_or_none("corner_speed_mm_s", high=500.0),
    )
    if (corner[0] is None) == (corner[1] is None):
        table.refuse("corner_deviation_mm", "either it or corner_speed_mm_s is needed, not both", "keep one of them")
    power = table.table("power_w")
    printer = Printer(
        name=stem,
        about=table.text("about", stem),
        bed=read_bed(table.table("bed")),
        nozzle_mm=table.sourced("nozzle_mm", low=0.05, high=3.0),
        filament_mm=table.sourced("filament_mm", low=0.5, high=5.0),
        nozzle_max_c=table.sourced("nozzle_max_c", low=NOZZLE_LEAST_C, high=600.0),
        bed_max_c=table.sourced("bed_max_c", high=300.0),
        enclosed=table.flag("enclosed", default=False),
        hardened_nozzle=table.flag("hardened_nozzle", default=False),
        speed_max_mm_s=table.sourced("speed_max_mm_s", low=1.0, high=5000.0),
        acceleration_max_mm_s2=table.sourced("acceleration_max_mm_s2", low=1.0, high=1e5),
        corner_deviation_mm=corner[0],
        corner_speed_mm_s=corner[1],
        melt_rate_mm3_s=table.sourced("melt_rate_mm3_s", high=500.0, above=True),
        undersize=_undersize(table.table("undersize")),
        calibrated=table.flag("calibrated", default=False),
        calibrated_for=_calibrated_for(table.table("calibrated_for")) if table.has("calibrated_for") else None,
        least_gap_mm=table.sourced("least_gap_mm", low=0.01, high=5.0),
        heat_up_s=table.sourced("heat_up_s", high=86400.0),
        plate_change_s=table.sourced("plate_change_s", high=86400.0),
        heating_w=power.sourced("heating", high=1e5),
        printing_w=power.sourced("printing", high=1e5),
        failure_per_hour=table.sourced("failure_per_hour", high=1.0),
        head_clear_mm=table.sourced_or_none("head_clear_mm", high=500.0),
        under_gantry_mm=table.sourced_or_none("under_gantry_mm", high=2000.0),
        time_ratio=table.sourced_or_none("time_ratio", low=0.05, high=20.0),
        mass_ratio=table.sourced_or_none("mass_ratio", low=0.05, high=20.0),
        goes_on=_goes_on(table),
        fails_by=_fails_by(table),
    )
    power.done()
    table.done()
    return printer


def _fails_by(table: Table) -> tuple[tuple[str, Sourced], ...]:
    """Read ``[fails_by]``, a ratio to the common failure rate by part or duty."""
    if not table.has("fails_by"):
        return ()
    row = table.table("fails_by")
    found = tuple((name, row.sourced(name, high=100.0, above=True)) for name in row.raw)
    row.done()
    return found


def _goes_on(table: Table) -> GoesOn | None:
    """Read ``[goes_on]``; None where a printer starts again whatever fails."""
    if not table.has("goes_on"):
        return None
    row = table.table("goes_on")
    found = GoesOn(
        share_percent=row.sourced("share_percent", high=100.0),
        mark_s=row.sourced("mark_s", high=86400.0, above=True),
        resume_s=row.sourced("resume_s", high=86400.0),
    )
    row.done()
    return found


def _calibrated_for(table: Table) -> Calibration:
    """Read what a printer was measured with."""
    taken = table.day("taken")
    if taken is None:
        table.refuse("taken", "it is missing", "write the day, as taken = 2026-11-25")
    found = Calibration(
        material=table.text("material"), nozzle_mm=table.number("nozzle_mm", low=0.05, high=3.0), taken=taken
    )
    table.done()
    return found


def printer_text(name: str, base: Path) -> str:
    """Return the text of a printer's profile, shipped or a user's own."""
    return profile_path("printers", name, base).read_text(encoding="utf-8")


def _undersize(table: Table) -> Undersize:
    """Read the undersize: sourced numbers, or plain ones with ``_low`` and ``_high`` next to them."""

    def ranged(way: str) -> Sourced:
        middle = table.sourced(f"{way}_mm", low=UNDERSIZE_MM[0], high=UNDERSIZE_MM[1])
        low = table.number_or(f"{way}_low_mm", middle.low, low=UNDERSIZE_MM[0], high=UNDERSIZE_MM[1])
        high = table.number_or(f"{way}_high_mm", middle.high, low=UNDERSIZE_MM[0], high=UNDERSIZE_MM[1])
        if not low <= middle.value <= high:
            table.refuse(f"{way}_mm", f"{middle.value:g} lies outside {low:g} to {high:g}", "correct the range")
        return Sourced(value=middle.value, low=low, high=high, kind=middle.kind, source=middle.source)

    found = Undersize(upright_mm=ranged("upright"), lying_mm=ranged("lying"))
    table.done()
    return found


def read_material(name: str, base: Path) -> Material:
    """Read a material profile."""
    return _record("materials", name, base, _material)


def _material(table: Table, stem: str) -> Material:
    """Read a material's keys."""
    strength = table.table("strength_mpa")
    softens = table.sourced("softens_c", low=-100.0, high=500.0)
    service = table.sourced("service_c", low=-100.0, high=500.0) if table.has("service_c") else service_from(softens)
    across = strength.sourced("across_layers", low=STRENGTH_LEAST_MPA, high=STRENGTH_MOST_MPA)
    modulus = table.sourced_or("modulus_along_mpa", MODULUS_MPA, low=STRENGTH_LEAST_MPA, high=MODULUS_MOST_MPA)
    material = Material(
        name=stem,
        about=table.text("about", stem),
        density_g_cm3=table.sourced("density_g_cm3", low=0.1, high=25.0),
        softens_c=softens,
        service_c=service,
        nozzle_c=table.sourced("nozzle_c", low=NOZZLE_LEAST_C, high=600.0),
        bed_c=table.sourced("bed_c", high=300.0),
        melt_rate_mm3_s=table.sourced("melt_rate_mm3_s", high=500.0, above=True),
        needs_enclosure=table.flag("needs_enclosure", default=False),
        abrasive=table.flag("abrasive", default=False),
        fumes=table.flag("fumes", default=False),
        flexible=table.flag("flexible", default=False),
        dry_first=table.flag("dry_first", default=False),
        strength_along_mpa=strength.sourced("along", low=STRENGTH_LEAST_MPA, high=STRENGTH_MOST_MPA),
        strength_across_layers_mpa=across,
        shear_mpa=table.sourced_or("shear_mpa", shear_from(across), low=STRENGTH_LEAST_MPA, high=STRENGTH_MOST_MPA),
        modulus_along_mpa=modulus,
        modulus_across_mpa=table.sourced_or(
            "modulus_across_mpa", modulus_across_from(modulus), low=STRENGTH_LEAST_MPA, high=MODULUS_MOST_MPA
        ),
        poisson_ratio=table.sourced_or("poisson_ratio", POISSON_RATIO, high=0.49),
        warp=table.sourced_or("warp", WARP, high=1.0),
        fan_percent=table.sourced_or("fan_percent", FAN_PERCENT, high=100.0),
        price_per_kg=table.sourced("price_per_kg", high=1e5),
    )
    strength.done()
    table.done()
    return material


SETTINGS_RANGES: dict[str, tuple[float, float]] = {
    "layer_height_mm": (0.01, 2.0),
    "first_layer_height_mm": (0.01, 2.0),
    "line_width_mm": (0.05, 5.0),
    "solid_top_mm": (0.0, 100.0),
    "solid_bottom_mm": (0.0, 100.0),
    "infill_percent": (0.0, 100.0),
    "outer_contour_speed_mm_s": (0.1, 5000.0),
    "inner_contour_speed_mm_s": (0.1, 5000.0),
    "solid_fill_speed_mm_s": (0.1, 5000.0),
    "infill_speed_mm_s": (0.1, 5000.0),
    "first_layer_speed_mm_s": (0.1, 5000.0),
    "travel_speed_mm_s": (0.1, 5000.0),
    "acceleration_mm_s2": (1.0, 1e5),
    "fan_percent": (0.0, 100.0),
    "least_layer_s": (0.0, 600.0),
    "self_supporting_deg": (0.0, 90.0),
    "brim_mm": (0.0, 100.0),
    "spacing_mm": (0.0, 200.0),
}
"""Sourced numbers of the settings, with the least and the most that each can be: what lies beyond is a slip."""


def read_settings(name: str, base: Path, changes: Table | None = None) -> Settings:
    """Read a settings profile; ``changes`` is a job's ``[settings]`` table, which overrides single keys."""
    table, stem = _open("settings", name, base)
    own = changes or Table({}, stem, ProfileError)

    def source_of(key: str) -> Table:
        table.has(key)
        return own if own.has(key) else table

    numbers = {key: source_of(key).sourced(key, low=least, high=most) for key, (least, most) in SETTINGS_RANGES.items()}
    support = source_of("support").word("support", ("where-needed", "none"))
    source_of("contours_n")
    settings = Settings(
        name=stem,
        contours_n=(own if own.has("contours_n") else table).count("contours_n", 3, low=1, high=100),
        support="none" if support == "none" else "where-needed",
        nozzle_c=source_of("nozzle_c").sourced_or_none("nozzle_c", low=NOZZLE_LEAST_C, high=600.0),
        bed_c=source_of("bed_c").sourced_or_none("bed_c", high=300.0),
        bridge_speed_mm_s=source_of("bridge_speed_mm_s").sourced_or_none("bridge_speed_mm_s", low=0.1, high=5000.0),
        **numbers,
    )
    table.text("about", "", empty=True)
    table.done()
    own.done()
    return settings


def read_limits(name: str = "standard", base: Path | None = None) -> Limits:
    """Read the limits of all rules; what a user's own file leaves out is the shipped standard's."""
    return _record("limits", name, base or Path(), _limits)


def _limits(table: Table, stem: str) -> Limits:
    """Read the keys of limits."""
    standard, _ = _open("limits", "standard", Path())
    keys = [key for key in Limits.__dataclass_fields__ if key not in ("name", "own")]
    usual = {key: standard.sourced(key) for key in keys}
    limits = Limits(
        name=stem,
        own=rule_limits(table),
        **{key: own_limit(table, key, usual[key]) if table.has(key) else usual[key] for key in keys},
    )
    table.text("about", "", empty=True)
    table.done()
    return limits


def read_environments() -> dict[str, Environment]:
    """Read the shipped places where a device may be kept, by name."""
    table = read_toml(shipped("profiles") / "environments.toml", ProfileError)
    found = {}
    for name in table.raw:
        one = table.table(name)
        found[name] = Environment(name=name, about=one.text("about"), hottest_c=one.sourced("hottest_c", low=-50.0))
        one.done()
    return found

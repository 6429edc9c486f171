"""The job: everything a person said about one device for one recipient, as frozen records.

Lengths are mm, scale is a percent of the drawn size. Values left out in the file are None here;
whoever needs one takes it from a survey and says so as a guess.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import Literal, get_args

from planner.finding import Guess, Vec3
from planner.job.calendar import Calendar
from planner.job.profiles.body_sizes import BodySize
from planner.job.profiles.limits import Limits
from planner.job.profiles.material import Material
from planner.job.profiles.places import Place
from planner.job.profiles.print_settings import Settings
from planner.job.profiles.printer import Printer
from planner.job.profiles.stock_sizes import HardwareTables
from planner.sourced import stated

Side = Literal["left", "right"]
Duty = Literal["shell", "load", "pin", "cover", "soft"]
MeasureKind = Literal["width", "around", "length"]
Fit = Literal["turning", "sliding", "held", "pilot"]
HardwareKind = Literal["binding-post", "dowel-pin", "machine-screw", "wood-screw", "nut", "washer", "insert"]
JointKind = Literal["screwed", "pressed", "slid", "snapped", "glued", "tied", "strapped"]
MeshUnit = Literal["mm", "cm", "m", "inch"]
MESH_UNITS: tuple[MeshUnit, ...] = get_args(MeshUnit)
PartScale = float | Vec3 | None
"""None: the job's scale; a percent of its own; or three percents, along x, y, z as drawn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """A place on a mesh where a width is measured: percent of the part's length along its longest axis."""

    part: str
    station_percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """One measure of the recipient, and the same inside the device at 100 %."""

    name: str
    kind: MeasureKind
    recipient_mm: float
    device_mm: float | Station
    padding_mm: float = 0.0
    ease_mm: float = 0.0
    taken: date | None = None
    how: str = ""
    body: BodySize | None = None
    """The published dimension that it is, on the unaffected side; only to catch a slip of the unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """Scale and side. ``percent`` rules where it is given; else the measures give it."""

    percent: float | None = None
    side: Side | None = None
    drawn_for: Side | None = None
    measures: tuple[Measure, ...] = ()
    what_if: bool = False
    """True where the percent was tried on the command line, and is not what the job asks for."""

    @property
    def mirrored(self) -> bool:
        """True where handed parts are mirrored."""
        return None not in (self.side, self.drawn_for) and self.side != self.drawn_for


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One kind of printed part. ``duty`` None: not stated, guessed and judged as load."""

    name: str
    mesh: Path
    count: int = 1
    handed: bool = False
    scale_percent: PartScale = None
    duty: Duty | None = None
    skin_side: bool = False
    skin_toward: Vec3 | None = None
    """Drawn direction in which the side that lies on skin looks; None: not told."""
    colour: str = "any"
    pose: Vec3 | None = None
    """Drawn direction that faces down; None: chosen."""
    sha256: str = ""
    ignore_bores: bool = False
    mesh_unit: MeshUnit | None = None
    """Unit of this part's file alone; None: the job's."""
    spares: int = 0
    """Copies printed beside those that are built in."""
    layer_height_mm: float | None = None
    """A layer height of its own; None: that of the settings. Such parts lie on plates of their own."""

    @property
    def printed_n(self) -> int:
        """Copies to print: those built in and the spares."""
        return self.count + self.spares

    @property
    def judged_duty(self) -> Duty:
        """The duty that rules use."""
        return self.duty or "load"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardware:
    """Something bought that does not scale. ``size_mm`` of a nut is across flats, of a washer its outside."""

    name: str
    kind: HardwareKind
    diameter_mm: float
    joins: tuple[str, ...]
    bore_mm: float | None = None
    """The bore as drawn, through the vertices."""
    fit: Fit | None = None
    stack_mm: float | None = None
    """At 100 %, for the length."""
    count: int = 1
    size_mm: float | None = None
    """Seat size of a nut (across flats), washer or insert (outside diameter); None: from the tables."""
    price_each: float | None = None
    """What one costs; None: the tables' example."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A printed running gap between two parts, per side, as drawn; None: measured between the meshes."""

    between: tuple[str, str]
    drawn_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Two parts that meet without hardware of their own, or in a way that no bore tells."""

    between: tuple[str, str]
    how: JointKind
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cord:
    """A cord in a channel of a part. ``lever``, ``friction`` feed the cord force."""

    name: str
    part: str
    diameter_mm: float
    kind: Literal["braided", "elastic"] = "braided"
    channel_mm: float | None = None
    path_mm: float | None = None
    bends_deg: float = 0.0
    count: int = 1
    lever: float = 1.0
    """Cord force over grip force, without friction."""
    friction: float | None = None
    """Friction coefficient of cord on guide; None: from the limits profile."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strap:
    """A strap through a slot. ``around_mm`` is the recipient, over the padding."""

    name: str
    part: str
    webbing_mm: float
    slot_mm: float | None = None
    around_mm: float | None = None
    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Padding:
    """Foam on a part; ``area_mm2`` at 100 %, the outline's own where an outline file is given."""

    part: str
    thickness_mm: float
    area_mm2: float | None = None
    outline: Path | None = None
    rings_mm: tuple[tuple[tuple[float, float], ...], ...] = ()
    """The outline at 100 %: closed rings, y upward, the lowest corner at (0, 0); a ring in a ring is a hole."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spool:
    """Filament at hand."""

    material: str
    colour: str = "any"
    left_g: float | None = None
    price_per_kg: float | None = None
    """What this spool cost; None: the material profile's example."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """How and by whom the device is used. Health and identity stay out."""

    recipient_age_years: float | None = None
    mouthing: bool = False
    kept: tuple[Place, ...] = ()
    hottest_c: float | None = None
    skin: bool = False
    load_n: float | None = None
    pull_n: float | None = None
    """The largest pull that was measured, for ``cord.force``."""
    mass_limit_g: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Override:
    """A hold lifted by a person, kept in the record. Empty ``part``: for the whole job."""

    rule: str
    role: str
    reason: str
    part: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A whole job, with the profiles it stands on.

    ``material`` is None for "auto"; then ``materials`` holds what may be chosen from.
    """

    name: str
    path: Path
    """The job file, or the folder of meshes that a job was guessed from."""
    parts: tuple[Part, ...]
    printer: Printer
    settings: Settings
    materials: tuple[Material, ...]
    limits: Limits
    tables: HardwareTables
    material: Material | None = None
    recipient: str = ""
    """A code such as ``R-07``, never a name."""
    mesh_unit: str | None = None
    tried_percent: tuple[float, float] | None = None
    size: Size = field(default_factory=Size)
    hardware: tuple[Hardware, ...] = ()
    gaps: tuple[Gap, ...] = ()
    joints: tuple[Joint, ...] = ()
    cords: tuple[Cord, ...] = ()
    straps: tuple[Strap, ...] = ()
    paddings: tuple[Padding, ...] = ()
    spools: tuple[Spool, ...] = ()
    use: Use = field(default_factory=Use)
    calendar: Calendar | None = None
    more_printers: tuple[Printer, ...] = ()
    """Printers that may run plates beside ``printer``; plates are laid out for that one."""
    overrides: tuple[Override, ...] = ()
    guessed: bool = False
    """True where the job was guessed from a folder, not read from a file."""
    notes: tuple[Guess, ...] = ()
    """What was assumed on reading."""

    def part(self, name: str) -> Part:
        """Return the part of that name; KeyError where there is none."""
        for part in self.parts:
            if part.name == name:
                return part
        raise KeyError(name)

    def material_named(self, name: str) -> Material:
        """Return the material of that name; KeyError where there is none."""
        for material in self.materials:
            if material.name == name:
                return material
        raise KeyError(name)

    def settings_at(self, layer_height_mm: float | None) -> Settings:
        """Return the settings with another layer height above the first layer; None: as they are."""
        if layer_height_mm is None:
            return self.settings
        return replace(self.settings, layer_height_mm=stated(layer_height_mm, f"{self.path.name}, [[part]]"))

    def own_height_mm(self, name: str) -> float | None:
        """Return a part's own layer height; None where it has none, or that of the settings."""
        own = self.part(name).layer_height_mm
        return None if own == self.settings.layer_height_mm.value else own

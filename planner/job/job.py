"""The job: everything a person said about one device for one recipient, as frozen records.

Lengths are mm, scale is a percent of the drawn size. Values left out in the file are None here;
whoever needs one takes it from a survey and says so as a guess.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Literal, get_args

from planner.finding import Guess, Vec3
from planner.job.bought import BoreEnds, Cord, Hardware, Padding, Spool, Strap
from planner.job.calendar import Calendar
from planner.job.hand_work import HandMinutes, HandWork
from planner.job.measured_size import Size
from planner.job.profiles.environments import Environment
from planner.job.profiles.limits import Limits
from planner.job.profiles.material import Material
from planner.job.profiles.print_settings import Settings
from planner.job.profiles.printer import Printer
from planner.job.profiles.stock_sizes import HardwareTables
from planner.job.stated_movement import Drive, NamedPoint, PartPlace
from planner.sourced import stated

Duty = Literal["shell", "load", "pin", "cover", "soft"]
JointKind = Literal["screwed", "pressed", "slid", "snapped", "glued", "tied", "strapped", "turns", "slides", "fixed"]
MeshUnit = Literal["mm", "cm", "m", "inch"]
MESH_UNITS: tuple[MeshUnit, ...] = get_args(MeshUnit)
Language = Literal["en", "de", "es", "fr", "pt", "ar", "hi"]
LANGUAGES: tuple[Language, ...] = get_args(Language)
"""Those of the papers that a family reads, by ISO 639-1."""
PartScale = float | Vec3 | None
"""None: the job's scale; a percent of its own; or three percents, along x, y, z as drawn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One kind of printed part."""

    name: str
    """The name that the other tables use."""
    mesh: Path
    """The mesh file, relative to the job file: STL, 3MF, OBJ or PLY."""
    mesh_object: str = ""
    """Which object of a 3MF file the part is, by its name in it; left out: all that the file builds, as one part."""
    count: int = 1
    """Copies that one device needs."""
    handed: bool = False
    """Whether the part is mirrored for the other side; never set it for a part with text or threads."""
    scale_percent: PartScale = None
    """"job", a percent of its own (100.0: never scaled), or three percents along x, y and z."""
    duty: Duty | None = None
    """What the part does: it decides how thick walls must be; left out: judged as load, and a question asks."""
    skin_side: bool = False
    """Whether one side lies on skin."""
    skin_toward: Vec3 | None = None
    """Drawn direction that this side faces; support is kept off it, and padding lies there."""
    colour: str = "any"
    """The colour of its spool."""
    pose: Vec3 | None = None
    """Drawn direction that faces down on the bed; left out or "auto": chosen."""
    sha256: str = ""
    """Of the mesh file, written by start; a file that changed is a hold."""
    ignore_bores: bool = False
    """Whether bores that no hardware is named for stay as they print, without a question."""
    rebore: bool = False
    """Whether its openings are put back to hardware size in the mesh: print what plan writes then, not the file."""
    mesh_unit: MeshUnit | None = None
    """Unit of this part's file alone; left out: that of the job."""
    spares: int = 0
    """Copies printed in addition to those that are built in."""
    layer_height_mm: float | None = None
    """A layer height of its own; such parts get plates of their own. Left out: that of the settings."""
    load_at_mm: Vec3 | None = None
    """Where the load acts, in the mesh; left out: where a cord's grip_at_mm lies."""
    load_dir: Vec3 | None = None
    """Drawn direction of the load; left out: across the joint's axis and the arm."""
    guessed: tuple[str, ...] = ()
    """Keys of this table that nobody has stated; take out what you have checked."""

    @property
    def printed_n(self) -> int:
        """Copies to print: those built in and the spares."""
        return self.count + self.spares

    @property
    def judged_duty(self) -> Duty:
        """The duty that rules use."""
        return self.duty or "load"

    @property
    def duty_stated(self) -> bool:
        """Whether a person said what the part does."""
        return self.duty is not None and "duty" not in self.guessed


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A printed running gap between two parts."""

    between: tuple[str, str]
    """The two parts that move on each other."""
    drawn_mm: float | None = None
    """Gap on each side, as drawn; left out: measured between the meshes where they lie in place."""
    guessed: tuple[str, ...] = ()
    """Keys of this table that nobody has stated; take out what you have checked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOpen:
    """Openings that nothing bought or printed goes through: windows, vents, holes for a hand or a cable."""

    name: str
    """What you call them."""
    parts: tuple[str, ...]
    """The parts that have them."""
    bore_mm: float | None = None
    """Diameter of the bores, as drawn; finds the bores within 4 %."""
    slot_mm: float | None = None
    """Length of the slots, as drawn."""
    bores: BoreEnds | None = None
    """Which bores of that size are meant, where a part has through and blind ones; left out: both."""
    guessed: tuple[str, ...] = ()
    """Keys of this table that nobody has stated; take out what you have checked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Two parts that meet without hardware of their own, or in a way that no bore shows; or how they move."""

    between: tuple[str, str]
    """The two parts, or copies such as "jaw#2"; the first one stands."""
    how: JointKind
    """How they are held together, or how the second moves: turns, slides, fixed."""
    note: str = ""
    """What to watch for, printed on the assembly card."""
    name: str = ""
    """What you call it; left out: "deck to jaw"."""
    rest_deg: float | None = None
    """Angle at rest, counted from the drawn place; a sliding joint counts in mm."""
    needs_deg: tuple[float, float] | None = None
    """Range that it must reach, counted from the drawn place, by the right hand about the second part's bore."""
    limits_deg: tuple[float, float] | None = None
    """Range that something outside the meshes allows, such as a stop you add."""
    copies: tuple[str, str] = ("", "")
    """The two copies that meet; as between where no number is written."""
    guessed: tuple[str, ...] = ()
    """Keys of this table that nobody has stated; take out what you have checked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """How and by whom the device is used. Health and identity stay out."""

    recipient_age_years: float | None = None
    """Age; decides about small parts, growth and how long a measure holds."""
    mouthing: bool = False
    """Whether parts may go into the mouth."""
    kept: tuple[Environment, ...] = ()
    """Places where the device is kept; see [places] for their temperatures."""
    hottest_c: float | None = None
    """The hottest that it gets; it counts instead of the places."""
    skin: bool = False
    """Whether parts touch skin."""
    grip_n: float | None = None
    """Grip wanted at the tip; left out: load_n."""
    load_n: float | None = None
    """The load that it carries, under which strength is screened; left out: grip_n is used."""
    load_h: float | None = None
    """How many hours the load stays on at a time; left out, a short load is judged, and the rest is told."""
    loads_n: float | None = None
    """How often it is loaded in its life; left out, one load is judged, and the rest is told."""
    hang_n: float | None = None
    """The weight that hangs at the tip, however it is held: 10 N for 1 kg; left out: load_n, else grip_n; 0: none."""
    pull_n: float | None = None
    """The greatest pull of the recipient, measured."""
    wobble_mm: float | None = None
    """The most that the tip may wobble; left out: the wobble is shown, but not judged."""
    mass_limit_g: float | None = None
    """The most that the device may weigh when worn."""

    @property
    def wanted_grip_n(self) -> float | None:
        """The grip that is wanted at the tip; None where neither it nor a load is stated."""
        return self.load_n if self.grip_n is None else self.grip_n

    @property
    def carried_n(self) -> float | None:
        """The load under which strength is screened, in N."""
        return self.grip_n if self.load_n is None else self.load_n


@dataclass(frozen=True, slots=True, kw_only=True)
class Override:
    """A hold lifted by a person, kept in the record."""

    rule: str
    """The rule whose hold is lifted."""
    role: str
    """The role of the person who answers for it, never a name."""
    reason: str
    """Why it may be lifted."""
    part: str = ""
    """The part that it is lifted for; left out: the whole job."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A whole job, with the profiles it stands on.

    ``material`` is None for "auto"; then ``materials`` holds what may be chosen from.
    """

    name: str
    """What you call the job."""
    path: Path
    """The job file, or the folder of meshes that a job was guessed from."""
    parts: tuple[Part, ...]
    printer: Printer
    """The printer: the name of a shipped profile, or the path of your own."""
    settings: Settings
    """The print settings: the name of a shipped profile, or the path of your own."""
    materials: tuple[Material, ...]
    limits: Limits
    """The limits of the rules: "standard", or the path of your own."""
    tables: HardwareTables
    material: Material | None = None
    """The material: a name or path, or "auto": chosen, with reasons, from what [[spool]] lists."""
    nozzle_mm: float | None = None
    """The nozzle fitted to the printer; left out: that of its profile."""
    recipient: str = ""
    """A code such as R-07, never a name."""
    language: Language = "en"
    """Of the papers; the record stays English."""
    mesh_unit: str | None = None
    """The unit of mesh files that name none; left out: mm, and a hold where that is implausible."""
    tried_percent: tuple[float, float] | None = None
    """The smallest and largest size that somebody has built; other sizes get a caution."""
    size: Size = field(default_factory=Size)
    hardware: tuple[Hardware, ...] = ()
    gaps: tuple[Gap, ...] = ()
    left_open: tuple[LeftOpen, ...] = ()
    joints: tuple[Joint, ...] = ()
    cords: tuple[Cord, ...] = ()
    straps: tuple[Strap, ...] = ()
    paddings: tuple[Padding, ...] = ()
    works: tuple[HandWork, ...] = ()
    """What is done by hand on printed openings, in that order."""
    hands: HandMinutes = field(default_factory=HandMinutes)
    spools: tuple[Spool, ...] = ()
    places: tuple[PartPlace, ...] = ()
    points: tuple[NamedPoint, ...] = ()
    drive: Drive | None = None
    use: Use = field(default_factory=Use)
    calendar: Calendar | None = None
    more_printers: tuple[Printer, ...] = ()
    """Other printers that may run plates; plates are laid out for ``printer``."""
    overrides: tuple[Override, ...] = ()
    guessed: bool = False
    """True where the job was guessed from a folder, not read from a file."""
    guessed_keys: tuple[str, ...] = ()
    """Keys of this table that nobody has stated; take out what you have checked."""
    notes: tuple[Guess, ...] = ()
    """What was assumed on reading."""

    @property
    def on_skin(self) -> bool:
        """Whether the device lies on skin: stated for the whole, told by a part's skin side, or by padding."""
        sides = any(part.skin_side or part.skin_toward is not None for part in self.parts)
        return self.use.skin or sides or bool(self.paddings)

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

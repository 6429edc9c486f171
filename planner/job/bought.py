"""Things that are bought or cut and keep their size: hardware, cords, straps, padding, filament."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from planner.finding import Vec3
from planner.job.stated_movement import Equaliser, PathPoint

Fit = Literal["turning", "sliding", "held", "pilot"]
HardwareKind = Literal[
    "binding-post",
    "dowel-pin",
    "machine-screw",
    "wood-screw",
    "nut",
    "washer",
    "insert",
    "bearing",
    "belt",
]
Nut = Literal["plain", "locking"]
BoreEnds = Literal["through", "blind"]


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherBore:
    """The bore of a piece of hardware in one of its parts, where it is not as in the others."""

    part: str
    """The part, one of `joins`."""
    bore_mm: float | None = None
    """Its bore there as drawn; left out: that of the others."""
    fit: Fit | None = None
    """How it sits there: a pin that is held in a fork turns in the lever; left out: as in the others."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardware:
    """Something bought that does not scale."""

    name: str
    """What you call it."""
    kind: HardwareKind
    """What it is."""
    diameter_mm: float
    """Diameter of the shank or thread; the bore of a bearing; the width of a toothed belt."""
    joins: tuple[str, ...]
    """The parts that it goes through or into, first part first."""
    bore_mm: float | None = None
    """Its bore as drawn, measured across the vertices; finds the bores within 4 %."""
    fit: Fit | None = None
    """How it sits in its bores."""
    stack_mm: float | None = None
    """Thickness of all that it goes through, at 100 %; gives its length."""
    count: int = 1
    """Pieces in one device."""
    size_mm: float | None = None
    """Seat of a nut (across flats), or the outside of a washer, insert or bearing; left out: from the tables."""
    price_each: float | None = None
    """What one costs; left out: the tables' example."""
    guessed: tuple[str, ...] = ()
    """Keys of this table that nobody has stated; take out what you have checked."""
    pilot_mm: float | None = None
    """Its bore as drawn in the last part of `joins`, where the screw cuts its own thread; the others take `bore_mm`."""
    other_bores: tuple[OtherBore, ...] = ()
    """Parts in which its bore is drawn in another size, or it sits in another way."""
    nut: Nut | None = None
    """A nut that lies free on the last part, bagged with the screw; locking at every turning fit. A nut in a pocket, or
    an insert, is hardware of its own."""
    washers: int | None = None
    """Washers at each screw; left out: one under the head of a machine screw, and one under a free nut."""
    printed: str = ""
    """The part that is printed as this piece: nothing is bought then."""
    pitch_mm: float | None = None
    """Pitch of a toothed belt; left out: a round belt."""
    path_mm: float | None = None
    """Length of the belt's whole path at 100 %."""
    bores: BoreEnds | None = None
    """Which bores of that size it means, where a part has through and blind ones; left out: both."""

    @property
    def turns(self) -> bool:
        """Whether it is said to turn in one of its parts, so that a plain nut would work loose."""
        return "turning" in (self.fit, *(one.fit for one in self.other_bores))

    @property
    def seated_mm(self) -> float:
        """Diameter of what sits in its bore: the outside of a bearing, else the shank."""
        return self.size_mm if self.kind == "bearing" and self.size_mm is not None else self.diameter_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Cord:
    """A cord in a channel of a part."""

    name: str
    """What you call it."""
    part: str
    """The part with its channel."""
    diameter_mm: float
    """Diameter of the cord."""
    kind: Literal["braided", "elastic"] = "braided"
    """Braided cord pulls, elastic returns."""
    channel_mm: float | None = None
    """Diameter of the channel as drawn; left out: taken from the mesh as a guess."""
    path_mm: float | None = None
    """Length of its path at 100 %, for the cut list."""
    bends_deg: float = 0.0
    """Sum of all bends along its path, for its friction."""
    count: int = 1
    """Cords of this kind in one device."""
    lever: float | None = None
    """Its force divided by the force at the tip, friction left out; left out: computed from the path."""
    friction: float | None = None
    """Friction coefficient of cord on guide; left out: from the limits profile."""
    path: tuple[PathPoint, ...] = ()
    """Its path, in order: "part:ch1" (a channel), "part:b1" (round what lies in that bore), "part:[x, y, z]", or the
    name of a [[point]]; the driven end last."""
    drives: str = ""
    """The part that it moves, or a copy of it; left out: where its path ends."""
    drawn_from: str = ""
    """The body joint that pulls it; see [drive]."""
    grip_at_mm: Vec3 | None = None
    """Where the driven part grips, in its mesh."""
    equaliser: Equaliser | None = None
    """What shares the pull among the cords of this kind: a pulley, a bar, or a knot that ties them."""
    rate_n_per_mm: float | None = None
    """Force of an elastic for each mm of stretch, by a spring balance."""
    force_n: float | None = None
    """Force of an elastic at its full stretch, by a spring balance: the hand pulls against it."""
    slack_mm: float = 0.0
    """Slack that its knot leaves with the joint open: the pull takes it in before anything moves."""
    guessed: tuple[str, ...] = ()
    """Keys of this table that nobody has stated; take out what you have checked."""

    @property
    def pulls(self) -> bool:
        """Whether it is said to move something: then the mechanism tells its pull."""
        return self.kind != "elastic" and bool(self.drives or self.drawn_from or self.grip_at_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Strap:
    """A strap through a slot."""

    name: str
    """What you call it."""
    part: str
    """The part with its slots."""
    webbing_mm: float
    """Width of the webbing."""
    slot_mm: float | None = None
    """Length of the slot as drawn; left out: taken from the mesh as a guess."""
    around_mm: float | None = None
    """The recipient's measure there, over the padding; for the cut list."""
    count: int = 1
    """Straps of this kind in one device."""
    guessed: tuple[str, ...] = ()
    """Keys of this table that nobody has stated; take out what you have checked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Padding:
    """Foam on a part; its area or an outline is needed."""

    part: str
    """The part that it lines."""
    thickness_mm: float
    """Thickness of the foam."""
    area_mm2: float | None = None
    """Area at 100 %; needed where there is no outline."""
    outline: Path | None = None
    """An SVG file with the outline at 100 %; its area then holds."""
    ease_mm: float = 0.0
    """Room between the foam and the limb, at each place; the forming buck is smaller by it."""
    rings_mm: tuple[tuple[tuple[float, float], ...], ...] = ()
    """The outline at 100 %: closed rings, y upward, the lowest corner at (0, 0); a ring in a ring is a hole."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spool:
    """Filament at hand."""

    material: str
    """A material's name or profile."""
    colour: str = "any"
    """Its colour, as the parts name it."""
    left_g: float | None = None
    """What is left on it; left out: enough."""
    price_per_kg: float | None = None
    """What it cost; left out: the material profile's example."""
    id: str = ""
    """What is written on it: of several jobs, spools with one id are one spool."""

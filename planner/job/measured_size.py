"""Size: what the recipient measures, and the scale and side that follow."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from planner.job.profiles.body_sizes import BodySize

Side = Literal["left", "right"]
MeasureKind = Literal["width", "around", "length"]
MeasureTool = Literal["caliper", "tape", "photo"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """A place on a mesh where a width is measured."""

    part: str
    """The part that is measured."""
    station_percent: float
    """How far along the part's longest axis, from its low end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """One measure of the recipient, and the same inside the device at 100 %."""

    name: str
    """What was measured, in words."""
    kind: MeasureKind
    """How padding adds to it: a width takes it twice, a measure around 2π times, a length not at all."""
    recipient_mm: float
    """The recipient's own measure."""
    device_mm: float | Station
    """The same inside the device at 100 %; or a place on a mesh where it is measured."""
    padding_mm: float = 0.0
    """Thickness of the padding between recipient and device."""
    ease_mm: float = 0.0
    """Extra room beyond the padding."""
    taken: date | None = None
    """The day it was taken; an old measure is a hold."""
    how: MeasureTool | None = None
    """What it was taken with."""
    off_mm: float | None = None
    """How far the recipient's measure may be off each way; left out: 3 % of a photo's, else nothing."""
    body: BodySize | None = None
    """The published body dimension that it is, on the unaffected side: only to catch a slip of the unit."""
    guessed: tuple[str, ...] = ()
    """Keys of this table that nobody has stated; take out what you have checked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """Scale and side."""

    percent: float | None = None
    """The scale; left out: the largest that a measure asks for."""
    side: Side | None = None
    """The side that the device is worn on."""
    drawn_for: Side | None = None
    """The side that the meshes are drawn for; where the two differ, handed parts are mirrored."""
    governs: str | None = None
    """The measure that gives the scale, by its name; left out: the one that asks for most."""
    measures: tuple[Measure, ...] = ()
    what_if: bool = False
    """True where the percent was tried on the command line, and is not what the job asks for."""
    guessed: tuple[str, ...] = ()
    """Keys of this table that nobody has stated; take out what you have checked."""

    @property
    def mirrored(self) -> bool:
        """True where handed parts are mirrored."""
        return None not in (self.side, self.drawn_for) and self.side != self.drawn_for

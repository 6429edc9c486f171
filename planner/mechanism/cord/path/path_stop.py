"""What a cord's path is made of: points, channels and wraps, each fixed in the mesh of one copy."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Vec3


@dataclass(frozen=True, slots=True, kw_only=True)
class PointStop:
    """A point that the cord passes or ends at: a hook, a hole, a knot."""

    copy: str
    """The copy that it belongs to."""
    at_mm: Vec3
    """Where it lies in the copy's mesh."""
    said: str = ""
    """What the job calls it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LineStop:
    """A channel that the cord runs through from one mouth to the other."""

    copy: str
    """The copy that it belongs to."""
    line_mm: tuple[Vec3, ...]
    """Its centre line in the copy's mesh, in the order of the path."""
    bends_deg: float | None = None
    """Sum of its turns inside; None: those of the line's corners."""
    said: str = ""
    """What the job calls it."""

    def reversed(self) -> LineStop:
        """Return the channel as it is run through from its other mouth."""
        return LineStop(copy=self.copy, line_mm=self.line_mm[::-1], bends_deg=self.bends_deg, said=self.said)


@dataclass(frozen=True, slots=True, kw_only=True)
class WrapStop:
    """Something round that the cord lies on: a pulley's groove, a post, a screw.

    The cord's centre line runs at ``drawn_mm`` times the scale, plus ``bought_mm``, plus half the cord.
    """

    copy: str
    """The copy that it belongs to."""
    axis: Vec3
    """Its axis in the copy's mesh, a unit vector."""
    centre_mm: Vec3
    """Middle of the circle that the cord lies on."""
    drawn_mm: float = 0.0
    """Radius of printed material: it scales."""
    bought_mm: float = 0.0
    """Radius of bought hardware: it does not."""
    sense: int = 0
    """1 or -1: how the cord goes round by the right hand about ``axis``; 0: not chosen yet."""
    loop: bool = False
    """Whether the cord crosses itself here: round by half a turn at least, and never lifted off."""
    axle_mm: float | None = None
    """Radius of the axle that it turns on with the cord, as a pulley does; None: the cord slides over it."""
    slides: bool = False
    """Whether the cord may move along the axis, as on a smooth post; in a groove it may not."""
    said: str = ""
    """What the job calls it."""


PathStop = PointStop | LineStop | WrapStop

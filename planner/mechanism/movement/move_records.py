"""What a mechanism does at one size: ranges, travel, pull, forces and play, all at size and in the device's frame."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from planner.finding import Vec3
from planner.mechanism.range.joint_range import LeastGap, Stop
from planner.scale import Scale

NO_PULL_N = 1e5
"""Stands for a pull that does not exist: with that friction the pin jams, however hard the cord is pulled."""
JointForm = Literal["turns", "slides", "fixed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class JointMove:
    """One joint at size.

    Parameters
    ----------
    parts
        The copy that stands, and the one that moves.
    axis
        Unit vector.
    free_deg
        From where to where it goes, in degrees from the drawn place, or mm where it slides; None: no stop.
    stops
        What ends it at either side, where something does.
    needs_deg
        What it ought to reach, at size where it slides; None where nobody said.
    play_mm
        Most that the moving part's bore lets its farthest point wander, and what 90 of 100 printers stay below.
    unknown
        Why its range is not known; empty where it is.
    """

    name: str
    parts: tuple[str, str]
    kind: JointForm
    axis: Vec3
    at_mm: Vec3
    free_deg: tuple[float | None, float | None]
    stops: tuple[Stop, ...]
    needs_deg: tuple[float, float] | None
    rest_deg: float = 0.0
    least_gap: LeastGap | None = None
    """The least gap on the way that is needed, as drawn; None where nothing comes near, or nothing is needed."""
    follows: str = ""
    """The joint of its closed loop that leads; empty where it leads itself."""
    sunk: tuple[str, ...] = ()
    """Two copies that it moves on each other and that lie in each other at rest; empty where none do."""
    play_mm: tuple[float, float] | None = None
    turns_too: bool = False
    """Whether it is a pin in a slot, which turns there as well as it slides."""
    unknown: str = ""

    @property
    def unit(self) -> str:
        """Degrees, or mm where it slides."""
        return "mm" if self.kind == "slides" else "°"


@dataclass(frozen=True, slots=True, kw_only=True)
class CordMove:
    """One cord at size.

    Parameters
    ----------
    joint, part
        The joint that it drives, and the part that its path begins in.
    travel_mm
        How much cord comes in from open to closed.
    has_mm
        What the body's joint gives; None where arm or range are not known.
    length_mm
        Of its way, open and closed.
    arm_mm
        Moment arm about the joint over the range: low, at rest, high.
    bends_deg
        Sum of its turns, the most over the range.
    pull_n
        At the hand, for all cords of the kind, the most over the range: least friction, expected, most.
    grip_n
        Grip at the tip that it is for; None where nobody said.
    friction
        Of cord on guide: low, expected, high.
    back_n_mm
        Least moment that is left to open the joint again, over the range: elastic less friction and weight, with the
        most friction and as expected; None where an elastic is not known, or none is there.
    unknown, pull_unknown, return_unknown
        Why its way, its pull, or what opens again is not known; empty where it is.
    """

    name: str
    part: str
    joint: str
    travel_mm: float | None = None
    has_mm: float | None = None
    length_mm: tuple[float, float] | None = None
    arm_mm: tuple[float, float, float] | None = None
    bends_deg: float | None = None
    pull_n: tuple[float, float, float] | None = None
    grip_n: float | None = None
    friction: tuple[float, float, float] | None = None
    back_n_mm: tuple[float, float] | None = None
    curve_n: tuple[tuple[float, float, float, float], ...] = ()
    """Angle of the joint, then the pull with the least friction, the expected and the most, in newtons."""
    each_n: tuple[tuple[str, tuple[tuple[float, float], ...]], ...] = ()
    """Where several fingers share a pull: of each, the place of the joint and the pull of its own cord, as expected."""
    elastic: str = ""
    shuts: str = ""
    """Where an elastic turns its joint the way that the cord does, in one sentence; empty where it opens everywhere."""
    begins: str = ""
    """The first stop of its path: travel and pull count from there on, not from the body."""
    grip_for_n: tuple[float, float, float, float, float] | None = None
    """The pull at the hand that can be kept up, then the grip that it builds up, the least over the range: with the
    most friction, as expected, and with the least, and last the hardest of all; None where the greatest pull is not
    measured."""
    usual_mm: tuple[float, float] | None = None
    """Where ``has_mm`` is not known, what people's joints give at the stated arm: in daily work, and over all."""
    locks: str = ""
    """Where it passes a dead point, in words: nothing bounds there how hard it grips; empty where it passes none."""
    shared: str = ""
    """What happens where one of several fingers touches first; empty where there is one."""
    together: str = ""
    """What the same joint of the body draws besides; empty where that is nothing. The pull then counts all."""
    hand_mm: float | None = None
    """What the body must draw where an equaliser shares it among several cords, their slack included; None where that
    is this cord's own."""
    tied_mm: float = 0.0
    """Slack as tied, which is taken in before anything moves."""
    unknown: str = ""
    ways_unknown: str = ""
    """Why the way of another cord of the same table is not known; empty where all are."""
    crosses: str = ""
    """What it runs through between its stops, in one sentence; empty where its way is free."""
    pull_unknown: str = ""
    return_unknown: str = ""

    @property
    def asks_mm(self) -> float | None:
        """What the body must draw to close it, slack as tied included; None where not known.

        >>> CordMove(name="c", part="p", joint="j", travel_mm=9.0, tied_mm=2.0).asks_mm
        11.0
        """
        if self.hand_mm is not None or self.travel_mm is None:
            return self.hand_mm
        return self.travel_mm + self.tied_mm

    @property
    def slack_mm(self) -> float | None:
        """What the body gives beyond what closing takes in: slack that the knot takes up; None where not known.

        >>> CordMove(name="c", part="p", joint="j", travel_mm=9.0, has_mm=17.0).slack_mm
        8.0
        """
        return None if self.asks_mm is None or self.has_mm is None else self.has_mm - self.asks_mm

    @property
    def back_words(self) -> str:
        """What the elastic has left or lacks to open it again where that is least; empty where not known."""
        if self.back_n_mm is None:
            return ""
        least, usual = self.back_n_mm
        if least > 0.0:
            return f"{self.elastic} opens it again, with {least:.1f} N·mm to spare where that is least"
        if usual > 0.0:
            return f"{self.elastic} opens it again with usual friction; with the highest {-least:.1f} N·mm are missing"
        return (
            f"{self.elastic} does not open it again: {-usual:.1f} N·mm are missing, with the highest friction "
            f"{-least:.1f} N·mm"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class PinForce:
    """The force on a pin, guide or knot when the grip is at its most, in newtons."""

    hardware: str
    part: str
    force_n: Vec3


@dataclass(frozen=True, slots=True, kw_only=True)
class Tip:
    """Wobble at the tip: at worst, and for 90 of 100 printers; and how far apart fingers stand when one touches."""

    copy: str
    """The copy that grips."""
    wobble_mm: tuple[float, float] | None
    spread_mm: float | None
    knot: str = ""
    """Which knot to move, and by how much; empty where none need."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A mechanism at one size.

    ``unplaced`` are copies whose place is not known, with the reason; ``notes`` what else a reader should know.
    """

    scale_percent: float
    joints: tuple[JointMove, ...]
    cords: tuple[CordMove, ...]
    pins: tuple[PinForce, ...]
    tip: Tip | None
    unplaced: tuple[tuple[str, str], ...] = ()
    notes: tuple[str, ...] = ()


def still(scale: Scale) -> Moved:
    """Return what a device does in which nothing moves."""
    return Moved(scale_percent=scale.percent, joints=(), cords=(), pins=(), tip=None)

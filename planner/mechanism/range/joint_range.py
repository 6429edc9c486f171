"""A joint's range: how far it goes, what ends it, and how near bodies come on the way that is needed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from planner.finding import Vec3
from planner.mechanism.joints.moving_joint import MovingJoint

What = Literal["meets", "near", "locked", "stated"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """What ends a joint's range.

    Parameters
    ----------
    at_deg
        The last free value, counted from the drawn place; of a sliding joint in mm.
    what
        ``meets``: bodies meet; ``near``: they come nearer than the clearance; ``locked``: a closed loop goes no
        farther; ``stated``: the job's own limit.
    parts
        What stands and what runs into it; a pin by its hardware's name. Empty where nothing meets.
    at_mm
        Where, in the device's frame; None where nothing meets.
    arm_mm
        Distance of that place from the joint's axis: a degree more takes this times pi / 180 off the corner.
    guessed
        Whether one of them is hardware of a usual size that nobody stated (a head, a nut or a washer), or a copy that
        was put together and stands at an angle that is not known.
    soft
        Whether one of them is a cord or padding, which gives way a little.
    """

    at_deg: float
    what: What
    parts: tuple[str, ...] = ()
    at_mm: Vec3 | None = None
    arm_mm: float | None = None
    guessed: bool = False
    soft: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class LeastGap:
    """The least gap as drawn, between what, and at which value of the joint; 0 where they meet."""

    gap_mm: float
    at_deg: float
    parts: tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class JointRange:
    """How far one joint goes.

    Parameters
    ----------
    free_deg
        From and to, counted from the drawn place; None where nothing stops it within a full turn, or ever.
    stops
        What ends it, the low end first.
    least_gap
        Over ``needs_deg``, between bodies that come nearer than they are at rest; None where none does within 1 mm,
        or nothing is needed.
    follows
        The joint of its closed loop that leads; empty where it leads itself.
    sunk
        Two bodies that it moves on each other and that lie in each other at rest; empty where none do.
    """

    joint: str
    free_deg: tuple[float | None, float | None]
    stops: tuple[Stop, ...]
    least_gap: LeastGap | None = None
    follows: str = ""
    sunk: tuple[str, ...] = ()

    @property
    def ends(self) -> tuple[Stop | None, Stop | None]:
        """What ends it at its low and at its high end."""
        low, high = self.free_deg
        return None if low is None else self.stops[0], None if high is None else self.stops[-1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """Joints that meet on the way to one end of what they need, when they go there together, in proportion.

    ``values`` are the last free value of each, ``needs`` what each ought to reach, by the joint's name; ``parts`` is
    what meets, ``at_mm`` where.
    """

    values: tuple[tuple[str, float], ...]
    needs: tuple[tuple[str, float], ...]
    parts: tuple[str, str]
    at_mm: Vec3
    guessed: bool

    @property
    def went(self) -> float:
        """How far all joints went, in parts of what they need."""
        return max(value / needs for (_, value), (_, needs) in zip(self.values, self.needs, strict=True) if needs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranges:
    """The ranges of all joints at one size.

    ``untried`` are the copies that could not be tried: their meshes have faults. ``together`` says which joints meet
    when they go together to what each of them may reach alone.
    """

    joints: tuple[JointRange, ...]
    untried: tuple[str, ...]
    together: tuple[Together, ...] = ()

    def of(self, name: str) -> JointRange:
        """Return the range of a joint; KeyError where there is none."""
        for one in self.joints:
            if one.joint == name:
                return one
        raise KeyError(name)


def at_size(joint: MovingJoint, drawn: JointRange, factor: float) -> JointRange:
    """Return a range as drawn at a size: angles stay, the way of what slides grows."""
    if joint.kind != "slides":
        return drawn
    low, high = (None if end is None else end * factor for end in drawn.free_deg)
    stops = tuple(replace(stop, at_deg=stop.at_deg * factor) for stop in drawn.stops)
    return replace(drawn, free_deg=(low, high), stops=stops)

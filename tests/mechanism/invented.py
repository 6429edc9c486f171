"""Invented mechanisms with ranges known by hand: bars with square sides on round knuckles, and blocks that stop them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from planner.mechanism import STILL, Mechanism, MovingJoint, Placed
from planner.mechanism.joints.linkage import linkage_of
from planner.mechanism.joints.rigid_groups import rigid_groups
from planner.mesh import Solid
from tests.shapes import Manifold, solid_of

GAP = 0.4
HIGH = 5.0
LEVEL = HIGH + GAP
Range = tuple[float | None, float | None]


@dataclass(frozen=True, kw_only=True)
class Device:
    """Solids drawn in place, the joints between them, and the range of each joint by hand."""

    name: str
    solids: dict[str, Solid]
    joints: tuple[MovingJoint, ...]
    ranges: dict[str, Range]

    @property
    def planted(self) -> bool:
        """Whether anything meets."""
        return any(end is not None for free in self.ranges.values() for end in free)

    @property
    def job_text(self) -> str:
        """A job of its parts."""
        parts = (f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\n' for name in self.solids)
        return '[job]\nname = "x"\nmaterial = "petg"\n' + "".join(parts)

    def mechanism(self) -> Mechanism:
        """Return it as a mechanism."""
        return as_drawn(tuple(self.solids), self.joints, tuple(self.ranges))


def as_drawn(names: Sequence[str], joints: Sequence[MovingJoint], asked: tuple[str, ...]) -> Mechanism:
    """Return parts that stand where they are drawn, one copy each, and the joints between them, some ``asked`` first."""
    linkage = linkage_of(rigid_groups(names, joints), asked)
    return Mechanism(
        placed=Placed(copies=dict.fromkeys(names, STILL), how=dict.fromkeys(names, "drawn")),
        joints=linkage.joints,
        groups=linkage.groups,
        loops=linkage.loops,
        tied=frozenset(),
        stacks=(),
        unsolved=(),
        notes=(),
        linkage=linkage,
    )


def turns(one: str, other: str, x: float, y: float, sense: float = 1.0) -> MovingJoint:
    """Return a joint that turns about an upright axis."""
    return MovingJoint(
        name=f"{one} to {other}", parts=(one, other), kind="turns", axis=(0.0, 0.0, sense), at_mm=(x, y, 0.0)
    )


def bar(long: float, wide: float, level: int, at: tuple[float, float] = (0.0, 0.0), deg: float = 0.0) -> Manifold:
    """Return a bar from a knuckle along x, one of the levels high, turned and moved."""
    knuckle = Manifold.cylinder(HIGH, wide / 2, -1.0, 48)
    body = knuckle + Manifold.cube((long, wide, HIGH)).translate((0, -wide / 2, 0))
    return body.rotate((0, 0, deg)).translate((*at, level * LEVEL))


def block(x: float, y: float, level: int, *, high: float = HIGH) -> Manifold:
    """Return a block of 6 × 6 mm whose corner towards the bar's tip is the point (x, y); below the axis for y < 0."""
    low = y if y > 0 else y - 6.0
    foot = LEVEL * level
    return Manifold.cube((6.0, 6.0, high + GAP)).translate((x - 6.0, low, foot - GAP))


def plate(level: int, half: float = 60.0) -> Manifold:
    """Return a plate below a level."""
    return Manifold.cube((2 * half, 2 * half, HIGH)).translate((-half, -half, level * LEVEL))


def meets_deg(x: float, y: float, wide: float) -> float:
    """Return the angle at which a bar's side meets a corner: y cos t - x sin t = wide / 2, so t = acos - atan2."""
    return math.degrees(math.acos(wide / 2 / math.hypot(x, y)) - math.atan2(x, abs(y)))


def hinges() -> Iterator[Device]:
    """Yield hinges with a block on either side, and without."""
    for long, wide, x, y in ((40.0, 8.0, 25.0, 9.0), (30.0, 6.0, 22.0, 4.0), (55.0, 10.0, 35.0, 20.0)):
        arm = solid_of(bar(long, wide, 0))
        stop = meets_deg(x, y, wide), -meets_deg(x, y + 3.0, wide)
        base = plate(-1) + block(x, y, 0) + block(x, -y - 3.0, 0)
        solids = {"base": solid_of(base), "arm": arm}
        joint = turns("base", "arm", 0.0, 0.0)
        yield Device(name=f"hinge {x}", solids=solids, joints=(joint,), ranges={joint.name: (stop[1], stop[0])})
        free = {"base": solid_of(plate(-1) + block(long + 8.0, y, 0)), "arm": arm}
        yield Device(name=f"free hinge {x}", solids=free, joints=(joint,), ranges={joint.name: (None, None)})


def chains() -> Iterator[Device]:
    """Yield arms on arms, two and three long, each a level higher; the last one between blocks, or free."""
    for count, long, y in ((2, 40.0, 7.0), (2, 45.0, 12.0), (3, 30.0, 6.0), (3, 36.0, 9.0), (3, 42.0, 15.0)):
        for stopped in (True, False):
            bars = [bar(long, 8.0, n, (n * long, 0.0)) for n in range(count)]
            ranges: dict[str, Range] = {}
            joints = []
            names = ["base", *(f"arm{n}" for n in range(count))]
            for n in range(count):
                joints.append(turns(names[n], names[n + 1], n * long, 0.0))
                ranges[joints[n].name] = (None, None)
            if stopped:
                x = long * 0.6
                seat = block(x, y, 0) + block(x, -y, 0)
                wide = Manifold.cube((14.0, 2 * y + 12.0, HIGH)).translate((x - 10.0, -y - 6.0, -LEVEL))
                bars[-2] += (seat + wide).translate(((count - 1) * long, 0, (count - 1) * LEVEL))
                bars[-2] += Manifold.cube((x, 8.0, HIGH)).translate(((count - 1) * long - 4, -4, (count - 2) * LEVEL))
                ranges[joints[-1].name] = (-meets_deg(x, y, 8.0), meets_deg(x, y, 8.0))
            solids = {"base": solid_of(plate(-1)), **{f"arm{n}": solid_of(one) for n, one in enumerate(bars)}}
            name = f"{count} arms {y} {'stopped' if stopped else 'free'}"
            yield Device(name=name, solids=solids, joints=tuple(joints), ranges=ranges)


def sliders() -> Iterator[Device]:
    """Yield sliders in a groove between end blocks, and one in an open groove."""
    for before, after in ((12.0, 7.5), (3.0, 21.0), (None, None)):
        rails = Manifold.cube((160.0, 30.0, HIGH)).translate((-80, -15, -LEVEL))
        for y in (-15.0, 10.0 + GAP):
            rails += Manifold.cube((160.0, 5.0 - GAP, HIGH + GAP)).translate((-80, y, -GAP))
        if before is not None and after is not None:
            for x in (-10.0 - before - 4.0, 10.0 + after):
                rails += Manifold.cube((4.0, 30.0, HIGH + GAP)).translate((x, -15, -GAP))
        slider = Manifold.cube((20.0, 20.0, HIGH)).translate((-10, -10, 0))
        joint = MovingJoint(
            name="way", parts=("rail", "slider"), kind="slides", axis=(1.0, 0.0, 0.0), at_mm=(0.0, 0.0, 0.0)
        )
        solids = {"rail": solid_of(rails), "slider": solid_of(slider)}
        free = (None if before is None else -before, after)
        yield Device(name=f"slider {after}", solids=solids, joints=(joint,), ranges={"way": free})


def jaw_pairs() -> Iterator[Device]:
    """Yield pairs of jaws that close on each other: a tip's corner meets the other's side; and pairs too far apart.

    With w half a bar's width and a half the distance of the axes: closing, L sin t + w cos t = 2 a - w; opened all
    round, a side meets the other's knuckle at 270 degrees less asin(w / a).
    """
    for long, wide, half in (
        (50.0, 7.0, 9.0),
        (64.0, 8.0, 12.0),
        (40.0, 5.0, 8.0),
        (30.0, 6.0, 40.0),
        (20.0, 6.0, 25.0),
    ):
        w = wide / 2
        closed = half < long / 2
        deg = math.degrees(math.asin((2 * half - w) / math.hypot(long, w)) - math.atan2(w, long)) if closed else None
        wide_open = None if deg is None else math.degrees(math.asin(w / half)) - 270.0
        solids = {
            "palm": solid_of(plate(-1, 30.0)),
            "jaw": solid_of(bar(long, wide, 0, (0.0, half))),
            "thumb": solid_of(bar(long, wide, 0, (0.0, -half))),
        }
        joints = (turns("palm", "jaw", 0.0, half, -1.0), turns("palm", "thumb", 0.0, -half))
        yield Device(
            name=f"jaws {half}", solids=solids, joints=joints, ranges={j.name: (wide_open, deg) for j in joints}
        )


def rocker_deg(bars: tuple[float, float, float, float], crank_deg: float) -> float:
    """Return the rocker's angle of an open four-bar by Freudenstein's equation (1955, from memory); bars a, b, c, d."""
    a, b, c, d = bars
    k1, k2, k3 = d / a, d / c, (a * a - b * b + c * c + d * d) / (2 * a * c)
    cos, sin = math.cos(math.radians(crank_deg)), math.sin(math.radians(crank_deg))
    A, B, C = cos - k1 - k2 * cos + k3, -2 * sin, k1 - (k2 + 1) * cos + k3
    return math.degrees(2 * math.atan2(-B - math.sqrt(B * B - 4 * A * C), 2 * A)) % 360.0


def four_bars() -> Iterator[Device]:
    """Yield four-bars whose crank goes all round, and the same with a post that its side meets.

    A post of radius r at (x, y) is met where y cos t - x sin t = w / 2 + r, the bar's half width w / 2.
    """
    for bars in ((20.0, 62.0, 45.0, 70.0), (15.0, 60.0, 40.0, 65.0), (24.0, 80.0, 60.0, 90.0)):
        a, _, c, d = bars
        drawn, wide, r = 60.0, 6.0, 2.0
        pin_a = a * math.cos(math.radians(drawn)), a * math.sin(math.radians(drawn))
        t4 = rocker_deg(bars, drawn)
        pin_b = d + c * math.cos(math.radians(t4)), c * math.sin(math.radians(t4))
        t3 = math.degrees(math.atan2(pin_b[1] - pin_a[1], pin_b[0] - pin_a[0]))
        joints = (
            turns("base", "crank", 0.0, 0.0),
            turns("crank", "coupler", *pin_a),
            turns("coupler", "rocker", *pin_b),
            turns("base", "rocker", d, 0.0),
        )
        values = [(rocker_deg(bars, drawn + t) - t4 + 180.0) % 360.0 - 180.0 for t in range(360)]
        for post in (False, True):
            base = Manifold.cube((d + 8.0, 8.0, HIGH)).translate((-4, -4, -LEVEL))
            ranges: dict[str, Range] = {"base to crank": (None, None), "base to rocker": (min(values), max(values))}
            if post:
                x, y = -a * 0.75, 0.0
                base += Manifold.cube((a + 4.0, 8.0, HIGH)).translate((-a - 4.0, -4, -LEVEL))
                base += Manifold.cylinder(HIGH + GAP, r, -1.0, 96).translate((x, y, -GAP))
                off = math.degrees(math.asin((wide / 2 + r) / -x))
                ranges = {"base to crank": (-180.0 - drawn + off, 180.0 - drawn - off)}
            solids = {
                "base": solid_of(base),
                "crank": solid_of(bar(a, wide, 0, deg=drawn)),
                "coupler": solid_of(bar(bars[1], wide, 1, pin_a, t3)),
                "rocker": solid_of(bar(c, wide, 0, (d, 0.0), t4)),
            }
            yield Device(name=f"four-bar {a} {post}", solids=solids, joints=joints, ranges=ranges)


def devices() -> tuple[Device, ...]:
    """Return all of them."""
    return (*hinges(), *chains(), *four_bars(), *sliders(), *jaw_pairs())


DEVICE_ZERO = next(hinges())
"""A hinge between two blocks."""

"""A joint that a cord drives: what acts on it at each angle of its range."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from planner.finding import Vec3
from planner.mechanism.cord.cord_run import CordRun
from planner.mechanism.cord.path.path_stop import PathStop
from planner.mechanism.cord.small_moves import Motion
from planner.mechanism.cord.vectors import dot, plus, size, times, unit
from planner.mechanism.force.balance import NOTHING, Balance, weight_n
from planner.mechanism.force.elastic import Elastic
from planner.mechanism.force.friction import Friction
from planner.mechanism.force.loop_balance import LoopBalance
from planner.mechanism.force.point_load import (
    PointLoad,
    cord_loads,
    resultant_n,
    scaled,
    tensions,
    work_n_mm,
)
from planner.mechanism.force.reactions import Bearing

Way = Literal["closing", "opening"]
AnyBalance = Balance | LoopBalance
STANDS = -1
"""The number of what does not move."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strung:
    """A cord or an elastic on its settled way, over the range of the joint; ``strands`` of it lie side by side."""

    stops: tuple[PathStop, ...]
    run: CordRun
    elastic: Elastic | None = None
    strands: int = 1
    name: str = ""
    ends_mm: tuple[float, float] | None = None
    """How short and how long its way gets, where that is more than over the range of this joint."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mass:
    """What a copy weighs, and where its centre of mass lies in its mesh; with what it holds, if it holds something."""

    copy: str
    at_mm: Vec3
    mass_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DrivenJoint:
    """A joint, its cord, and what works against it.

    Parameters
    ----------
    motions
        Where copies stand and how they move over the range of this joint: the places of its cords' runs.
    factor
        The scale.
    moving
        The copies that move with the joint.
    axis
        In the device's frame.
    pin_mm
        Radius of its pin, which does not scale; for a joint that slides 1.
    pull
        The cord that closes it.
    elastics
        What opens it again.
    tip
        The copy that grips, and where, in its mesh.
    tip_way
        Direction in which the load pushes on it, in its mesh; None: straight against its motion.
    masses
        What the moving body weighs.
    loops
        Where the joint leads a closed loop: the loop's joints at each place, at size; else empty.
    bodies
        The number of each copy's body, in a loop; what does not move has -1.
    down
        Direction of gravity in the device's frame; None: whichever is worst.
    """

    motions: tuple[Motion, ...]
    factor: float
    moving: frozenset[str]
    axis: Vec3
    pin_mm: float
    pull: Strung
    elastics: tuple[Strung, ...] = ()
    tip: tuple[str, Vec3]
    tip_way: Vec3 | None = None
    masses: tuple[Mass, ...] = ()
    down: Vec3 | None = None
    on_stop: bool = False
    """Whether a stop at its open end may take what the tip's load turns it by."""
    pushes: tuple[Vec3, ...] = ()
    """Which way the load pushes at each place, in the tip's mesh, whatever that does here; empty: as it turns most."""
    loops: tuple[tuple[Bearing, ...], ...] = ()
    bodies: Mapping[str, int] = field(default_factory=dict)
    known: dict[tuple[int, Friction, Way, bool], AnyBalance] = field(
        init=False, default_factory=dict, repr=False, compare=False
    )
    """Balances that were asked for before."""

    @property
    def closing(self) -> int:
        """1 where the angle grows as the cord is pulled, else -1."""
        return 1 if sum(self.pull.run.arm_mm) < 0.0 else -1

    def balance(self, k: int, friction: Friction, way: Way = "closing", *, weighs: bool = False) -> AnyBalance:
        """Return what turns the joint at the range's place ``k``: the same for every pull and every grip.

        Parameters
        ----------
        friction
            Of cords on guides; that of the pin is taken when the balance is solved.
        way
            Closing, friction makes elastics pull harder on the moving body; opening, less.
        weighs
            Whether the weight counts, against the way that is asked about.
        """
        key = k, friction, way, weighs
        if key not in self.known:
            self.known[key] = self._balance(k, friction, way, weighs=weighs)
        return self.known[key]

    def _balance(self, k: int, friction: Friction, way: Way, *, weighs: bool) -> AnyBalance:
        """Work out what turns the joint."""
        motion, sense = self.motions[k], self.closing
        pull = self.pull_loads(k, friction)
        grip = self.grip_load(k)
        rest = self.elastic_loads(k, friction, way)
        moment = sense * work_n_mm(rest, motion, self.factor)
        force = resultant_n(rest, self.moving)
        if weighs:
            heavy, weight = self._weight(motion, sense if way == "closing" else -sense)
            moment, force = moment + sense * heavy, plus(force, weight)
        found = Balance(
            axis=self.axis,
            pull_mm=sense * work_n_mm(pull, motion, self.factor),
            grip_mm=-sense * work_n_mm([grip], motion, self.factor),
            rest_n_mm=moment,
            pull_force=resultant_n(pull, self.moving),
            grip_force=grip.force_n,
            rest_force_n=force,
            pin_mm=0.0 if self.loops else self.pin_mm,
        )
        if not self.loops:
            return found
        return LoopBalance(
            smooth=found,
            bearings=self.loops[k],
            bodies=self.bodies,
            stands=STANDS,
            pull=pull,
            grip=grip,
            rest=rest,
            sense=sense if way == "closing" else -sense,
        )

    def pull_loads(self, k: int, friction: Friction) -> tuple[PointLoad, ...]:
        """Return what 1 N of pull does to every copy that its cord touches."""
        run = self.pull.run
        return cord_loads(self.pull.stops, run.cords[k], tensions(run.cords[k], run.rubs[k], friction))

    def grip_load(self, k: int) -> PointLoad:
        """Return 1 N at the tip at the range's place ``k``, against the way that it closes.

        Where a chain passes a dead point, what it drives turns back while the cord is pulled on: what was gripped still
        presses as it did, and holds the chain there.
        """
        (copy, at), motion = self.tip, self.motions[k]
        frame = motion.here[copy]
        place = times(frame.point(at), self.factor)
        if self.pushes:
            pushed = self.pushes[k]
            return PointLoad(copy=copy, at_mm=place, force_n=frame.direction(pushed))
        closes = times(motion.speed_mm(copy, place, self.factor), float(self.closing) * self._forth(motion))
        if self.tip_way is None:
            return PointLoad(copy=copy, at_mm=place, force_n=times(unit(closes), -1.0))
        stated = unit(frame.direction(self.tip_way))
        against = sum(a * b for a, b in zip(stated, closes, strict=True)) <= 0.0
        return PointLoad(copy=copy, at_mm=place, force_n=stated if against else times(stated, -1.0))

    def _forth(self, motion: Motion) -> float:
        """Return -1 where the tip goes back against most of its way, as seen from what it is on; else 1."""
        copy, at = self.tip
        if not self.loops:
            return 1.0
        ways = [self._on_body(one, copy, at) for one in self.motions]
        most = NOTHING
        for way in ways:
            most = plus(most, way)
        return -1.0 if dot(self._on_body(motion, copy, at), most) < 0.0 else 1.0

    def _on_body(self, motion: Motion, copy: str, at_mm: Vec3) -> Vec3:
        """Return how fast a point of a copy moves, along the copy's own axes."""
        frame = motion.here[copy]
        place = times(frame.point(at_mm), self.factor)
        return frame.inverse().direction(motion.speed_mm(copy, place, self.factor))

    def elastic_loads(self, k: int, friction: Friction, way: Way = "closing") -> tuple[PointLoad, ...]:
        """Return what all elastics do to the copies that they touch."""
        return tuple(load for one in self.elastics for load in self._elastic_loads(one, k, friction, way))

    def _elastic_loads(self, one: Strung, k: int, friction: Friction, way: Way) -> tuple[PointLoad, ...]:
        """Return what an elastic does; where its force has a range, the end that works against the way."""
        assert one.elastic is not None
        run = one.run
        low, high = one.elastic.force_n(run.length_mm[k], *(one.ends_mm or (min(run.length_mm), max(run.length_mm))))
        at_foot = tensions(run.cords[k], run.rubs[k], friction, from_end=way == "closing")
        force = high if way == "closing" else low
        return scaled(cord_loads(one.stops, run.cords[k], _from_foot(at_foot)), force * one.strands)

    def _weight(self, motion: Motion, sense: int) -> tuple[float, Vec3]:
        """Return the moment of the weight for a radian of the joint, and its force on the moving body."""
        speed, total = NOTHING, 0.0
        for mass in self.masses:
            place = times(motion.here[mass.copy].point(mass.at_mm), self.factor)
            speed = plus(speed, motion.speed_mm(mass.copy, place, self.factor), mass.mass_g)
            total += mass.mass_g
        if total <= 0.0 or size(speed) <= 0.0:
            return 0.0, NOTHING
        down = times(unit(speed), -float(sense)) if self.down is None else unit(self.down)
        force = weight_n(total, down)
        return sum(f * v for f, v in zip(force, speed, strict=True)) / total, force


def _from_foot(pulls: Sequence[float]) -> tuple[float, ...]:
    """Return tensions with 1 at the foot of an elastic, its first stop, where its stretch sets its force."""
    return tuple(pull / pulls[0] for pull in pulls)

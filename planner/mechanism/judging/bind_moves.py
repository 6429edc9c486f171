"""The rules of movement of one job, from what its mechanism does at several sizes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from planner.finding import Finding, Verdict
from planner.job import Job, part_of
from planner.mechanism.judging.curve import Curve
from planner.mechanism.judging.move_cord import MovePull, MoveReturn, MoveTravel
from planner.mechanism.judging.move_play import MovePlay
from planner.mechanism.judging.move_range import MoveEnd, MoveRange
from planner.mechanism.moved.moved import CordMove, JointMove, Moved
from planner.mechanism.moved.stop_words import stop_words
from planner.rules import Rule, constants

KNOTS = (0.4, 0.6, 0.8, 1.0, 1.25, 1.6, 2.0, 2.5)
"""Sizes (factors) at which the mechanism is asked; between them its numbers go straight."""
CLOSER_N = 3
"""So often the size at which a range ends is asked for again, each time from nearer by."""

At = Callable[[float], Moved]
"""What the mechanism does at a scale (a factor)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Samples:
    """What the mechanism did at each knot."""

    at: At
    found: tuple[Moved, ...]

    def curve(self, value: Callable[[Moved], float | None]) -> Curve | None:
        """Return a number over scale; None where it is not known at every knot."""
        values = [value(moved) for moved in self.found]
        known = [one for one in values if one is not None]
        return Curve(scales=KNOTS, values=tuple(known)) if len(known) == len(values) else None

    def closer(self, curve: Curve, level: Callable[[float], float], value: Callable[[Moved], float | None]) -> Curve:
        """Return a curve with knots where it passes a level, found from nearer by each time."""
        for _ in range(CLOSER_N):
            less = Curve(
                scales=curve.scales,
                values=tuple(v - level(s) for s, v in zip(curve.scales, curve.values, strict=True)),
            )
            fresh = [s for s in less.crossings(0.0) if KNOTS[0] < s < KNOTS[-1] and s not in curve.scales]
            knots = dict(zip(curve.scales, curve.values, strict=True))
            for s in fresh:
                asked = value(self.at(s))
                if asked is not None and min(abs(s - knot) for knot in curve.scales) > 1e-9:
                    knots[s] = asked
            curve = Curve(scales=tuple(sorted(knots)), values=tuple(knots[s] for s in sorted(knots)))
        return curve


def move_rules(job: Job, at: At) -> tuple[Rule, ...]:
    """Return every rule of movement of a job; ``at`` answers what its mechanism does at a scale."""
    samples = _Samples(at=at, found=tuple(at(s) for s in KNOTS))
    drawn = samples.found[KNOTS.index(1.0)]
    rules: list[Rule] = []
    for index, joint in enumerate(drawn.joints):
        rules += _range(job, samples, index, joint)
    for index, cord in enumerate(drawn.cords):
        rules += _cord(job, samples, index, cord)
    rules += _play(job, samples, drawn)
    return tuple(rules)


def _range(job: Job, samples: _Samples, index: int, joint: JointMove) -> Sequence[Rule]:
    """Return the rule about a joint's range; a hold where it is not known though somebody asks for it."""
    part = part_of(joint.parts[1])
    if joint.unknown:
        return constants([_unknown("move.range", part, joint.name, joint.unknown)]) if joint.needs_deg else []
    if joint.kind == "fixed" or (joint.needs_deg is None and job.guessed):
        return []
    ends = [_end(samples, index, joint, side) for side in (0, 1)]
    return [
        MoveRange(
            part=part,
            feature=joint.name,
            low=ends[0],
            high=ends[1],
            needs=joint.needs_deg,
            near=joint.least_gap,
            clear_mm=job.limits.running_sliding_mm.value,
            unit=joint.unit,
        )
    ]


def _end(samples: _Samples, index: int, joint: JointMove, side: int) -> MoveEnd:
    """Return one end of a joint's range over scale, and what ends it as drawn."""

    def value(moved: Moved) -> float | None:
        return moved.joints[index].free_deg[side]

    curve = samples.curve(value)
    if curve is not None and joint.needs_deg is not None:
        needs, grows = joint.needs_deg[side], joint.unit == "mm"
        curve = samples.closer(curve, lambda s: needs * s if grows else needs, value)
    stop = min(joint.stops, key=lambda one: abs(one.at_deg - (joint.free_deg[side] or 0.0)), default=None)
    met = "something is in the way" if stop is None else stop_words(stop)
    return MoveEnd(curve=curve, meets=met, reach_mm=0.0 if stop is None else stop.arm_mm or 0.0)


def _cord(job: Job, samples: _Samples, index: int, cord: CordMove) -> Sequence[Rule]:
    """Return the rules about one cord; a hold where its numbers are not known."""
    if cord.unknown:
        return constants([_unknown("move.travel", cord.part, cord.name, cord.unknown)])
    rules: list[Rule] = []
    needs = samples.curve(lambda moved: moved.cords[index].travel_mm)
    drive = job.drive.joint if job.drive else "body"
    if needs is not None:
        travel = MoveTravel(part=cord.part, feature=cord.name, needs_mm=needs, has_mm=cord.has_mm, body=drive)
        rules.append(travel)
    pulls = [samples.curve(lambda moved, end=end: _pull(moved.cords[index], end)) for end in (0, 2)]  # type: ignore[misc]
    if pulls[0] is not None and pulls[1] is not None and cord.grip_n is not None:
        limits = job.limits
        rules.append(
            MovePull(
                part=cord.part,
                feature=cord.name,
                low_n=pulls[0],
                high_n=pulls[1],
                grip_n=cord.grip_n,
                greatest_n=job.use.pull_n,
                share=limits.cord_share.value,
                source=f"{limits.cord_share.source}; friction: {limits.cord_friction.source}",
            )
        )
    left = samples.curve(lambda moved: moved.cords[index].back_n_mm)
    if left is not None:
        rules.append(MoveReturn(part=cord.part, feature=cord.joint, elastic=cord.elastic, left_n_mm=left))
    return rules


def _pull(cord: CordMove, end: int) -> float | None:
    """Return one end of a cord's pull."""
    return None if cord.pull_n is None else cord.pull_n[end]


def _play(job: Job, samples: _Samples, drawn: Moved) -> Sequence[Rule]:
    """Return the rule about wobble at the tip, where it is known."""
    curves = [samples.curve(lambda moved, end=end: _wobble(moved, end)) for end in (0, 1)]  # type: ignore[misc]
    worst, usual = curves
    if worst is None or usual is None or not drawn.joints:
        return []
    part = part_of(drawn.joints[-1].parts[1])
    return [MovePlay(part=part, feature="the tip", worst_mm=worst, usual_mm=usual, most_mm=job.use.wobble_mm)]


def _wobble(moved: Moved, end: int) -> float | None:
    """Return one end of the tip's wobble."""
    return None if moved.tip is None or moved.tip.wobble_mm is None else moved.tip.wobble_mm[end]


def _unknown(rule: str, part: str, feature: str, why: str) -> Finding:
    """Hold what could not be worked out."""
    return Finding(
        rule=rule,
        part=part,
        feature=feature,
        verdict=Verdict.HOLD,
        why=f"{feature}: {why}",
        remedy="state what is missing in the job file; fitwright move tells what is known",
        source="mechanism",
    )

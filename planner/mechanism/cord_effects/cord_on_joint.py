"""A cord of a job on the joint that it drives: its settled way and the motion over the range, for any size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from planner.assembly import Claim
from planner.job import Cord, Job, copy_name, number_of, part_of
from planner.mechanism.cord.cord_run import CordRun, run_of
from planner.mechanism.cord.path.cord_ways import CordWay, cord_ways
from planner.mechanism.cord.path.next_way import Known
from planner.mechanism.cord.path.path_stop import PathStop, PointStop
from planner.mechanism.cord.path.settled_path import settled
from planner.mechanism.cord.placed_stop import stand
from planner.mechanism.cord.small_moves import Motion, motions_over
from planner.mechanism.cord.taut import taut
from planner.mechanism.cord_effects.chain import Ends, Free, beside_words, chain_to, ends_of
from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.places.off_part import Landing
from planner.mesh import Solid
from planner.phrases import listed
from planner.sourced import Sourced, stated
from planner.survey import Survey

ARM_LEAST_MM = 1e-6
"""A joint whose whole range changes a cord's length by less than this is not crossed by it."""
PLACES_N = 17
"""Places of a range at which a cord is asked; between them its numbers go nearly straight."""

NEAR_SHARE = 0.25
"""A stop this share of the range beyond the open end may still take a load there; no source."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # frames do not compare
class Leg:
    """One joint that a cord crosses, the motion about it over the range, and the copies that it moves."""

    joint: MovingJoint
    motions: tuple[Motion, ...]
    moving: frozenset[str]
    on_stop: bool = False
    """Whether a stop holds the joint near its open end, when its cord does not."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StrungCord:
    """A cord on a joint.

    Parameters
    ----------
    cord
        As the job states it.
    driven
        The copy that it moves.
    stops
        Its way, settled.
    legs
        The joints that it crosses, the nearest to the driven copy first; all go from open to closed together.
    """

    cord: Cord
    mechanism: Mechanism
    driven: str
    stops: tuple[PathStop, ...]
    legs: tuple[Leg, ...]
    beside: str = ""
    """That it begins on what moves, or passes a joint that it is not asked about, in words; empty where it does not."""
    tip_off: str = ""
    """How far the place where the driven copy grips lies off it, in words; empty where it does not."""
    runs: dict[tuple[float, str], CordRun] = field(default_factory=dict, repr=False)
    """Runs that were asked for before, by scale and joint."""
    through: dict[tuple[StrungCord, ...], str] = field(default_factory=dict, repr=False)
    """What it was found to run through, by the ways and elastics that it was looked at with: the same at all sizes."""

    @property
    def joint(self) -> MovingJoint:
        """The joint that it drives: the nearest to the driven copy."""
        return self.legs[0].joint

    @property
    def crossed(self) -> frozenset[str]:
        """The names of the joints that it crosses."""
        return frozenset(leg.joint.name for leg in self.legs)

    def run(self, factor: float, leg: Leg | None = None) -> CordRun:
        """Return the cord over the range, at a scale; its arms are about one joint, else about the nearest."""
        about = leg or self.legs[0]
        key = factor, about.joint.name
        if key not in self.runs:
            self.runs[key] = run_of(self.stops, about.motions, factor, self.cord.diameter_mm)
        return self.runs[key]


def strung_cords(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    mechanism: Mechanism,
    free: Mapping[str, Free],
    ways: Mapping[str, CordWay] | None = None,
) -> dict[str, StrungCord | str]:
    """Return every cord that has a path, by its name: ready to be asked, or the sentence why it is not.

    The others of a table with several go by the names that copies have: the second of ``pull`` is ``pull#2``. ``free``
    is how far each joint goes, by name; it is asked where the job does not say how far it ought to go;
    ``ways`` are the cords' ways where they are known already.
    """
    known = Known(job=job, solids=solids, surveys=surveys, claims=tuple(claims), frames=mechanism.frames)
    every = cord_ways(known) if ways is None else ways
    landing = Landing(job=job, solids=solids, surveys=surveys, frames=mechanism.frames, groups=mechanism.groups)
    found: dict[str, StrungCord | str] = {}
    for name, (cord, way) in every.items():
        off = way if isinstance(way, str) else _off_way(landing, cord, way)
        one = off or strung_cord(job, mechanism, cord, way, free)  # type: ignore[arg-type]
        found[name] = one if isinstance(one, str) else replace(one, tip_off=_tip_off(landing, one))
    return found


def _off_way(landing: Landing, cord: Cord, stops: Sequence[PathStop]) -> str:
    """Return in words which point of a cord's way lies off its part; empty where none does."""
    points = (stop for stop in stops if isinstance(stop, PointStop))
    words = (landing.off_words(stop.copy, stop.at_mm, f"its point {_name(stop)}".strip()) for stop in points)
    return next((f"the path of {cord.name} cannot be followed: {off}" for off in words if off), "")


def _name(stop: PointStop) -> str:
    """Return what a point of a path is called; nothing where its coordinates are all its name."""
    return "" if stop.said.endswith("]") else stop.said


def _tip_off(landing: Landing, one: StrungCord) -> str:
    """Return in words how far the place where a cord's driven copy grips lies off it; empty where it does not."""
    places = {"grip_at_mm": one.cord.grip_at_mm, "load_at_mm": landing.job.part(part_of(one.driven)).load_at_mm}
    told = ((f"{key} of {one.driven}", at) for key, at in places.items() if at is not None)
    return next(filter(None, (landing.off_words(one.driven, at, said) for said, at in told)), "")


def friction_of(job: Job, cord: Cord) -> Sourced:
    """Return a cord's friction on what it slides over: stated, or as the limits have it."""
    return job.limits.cord_friction if cord.friction is None else stated(cord.friction)


def ways_of(cord: Cord, strung: Mapping[str, StrungCord | str]) -> list[StrungCord | str]:
    """Return all ways of a table's cords, the first one first; nothing where it has no path."""
    names = (copy_name(cord.name, n) for n in range(1, cord.count + 1))
    return [strung[name] for name in names if name in strung]


def strung_cord(
    job: Job,
    mechanism: Mechanism,
    cord: Cord,
    stops: Sequence[PathStop],
    free: Mapping[str, Free],
) -> StrungCord | str:
    """Return a cord with its stops on its joint, or one sentence why that cannot be told."""
    away = sorted({stop.copy for stop in stops if stop.copy not in mechanism.frames})
    if away:
        return f"the place of {listed(away)} is not known: give it a [[place]]"
    own = [stop.copy for stop in stops if job.part(part_of(stop.copy)).scale_percent is not None]
    if own:
        return f"{own[0]} keeps a scale of its own, and what {cord.name} does on it is not worked out"
    driven = _driven(cord, stops)
    chain = chain_to(mechanism, driven)[::-1]
    pulled = chain_to(mechanism, stops[-1].copy)[::-1]
    if any({one.name, other.name} <= set(loop) for loop in mechanism.loops for one in chain for other in pulled):
        chain = pulled  # in a closed loop the cord turns what it ends on, and that takes along what grips
    if cord.kind == "elastic":  # it pulls on all that it touches, from jaw to jaw on both
        touched = (joint for stop in stops for joint in chain_to(mechanism, stop.copy)[::-1])
        chain = tuple({joint.name: joint for joint in (*chain, *touched)}.values())
    if not chain:
        return f"nothing that moves is known to carry {driven}, which {cord.name} drives"
    ranges: dict[str, Ends] = {}
    for joint in chain:
        if not joint.zero_known:
            return f"the drawn angle of {joint.name} is not known: give one of its parts a [[place]]"
        ends = ends_of(joint, free.get(joint.name, (None, None)))
        if isinstance(ends, str):
            return ends
        ranges[joint.name] = ends
    try:
        return _strung(mechanism, cord, driven, stops, chain, ranges, free)
    except LockedError as locked:
        return f"{chain[0].name} does not reach what it needs: {locked}"


def _strung(
    mechanism: Mechanism,
    cord: Cord,
    driven: str,
    stops: Sequence[PathStop],
    chain: Sequence[MovingJoint],
    ranges: Mapping[str, Ends],
    free: Mapping[str, Free],
) -> StrungCord | str:
    """Return a cord over the joints of its chain that it crosses; the others stay as drawn."""
    ends = [{name: pair[side] for name, pair in ranges.items()} for side in (0, 1)]
    poses = [mechanism.frames, *(mechanism.frames_at(one) for one in ends)]
    laid = settled(stops, poses, 1.0, cord.diameter_mm)
    arms = {joint.name: _arm_mm(mechanism, laid, joint, ranges[joint.name], cord.diameter_mm) for joint in chain}
    crossed = [joint for joint in chain if abs(arms[joint.name]) > ARM_LEAST_MM]
    if not crossed:
        return f"{cord.name} crosses no joint on the way to {driven}: its length stays as it is"
    lead = crossed[0]
    places = _places(lead, ranges[lead.name])
    together = [_together(lead, crossed, arms, ranges, place) for place in places]
    legs = []
    for joint in crossed:
        motions = tuple(
            motion
            for values in together
            for motion in motions_over(
                lambda value, values=values, joint=joint: mechanism.frames_at({**values, joint.name: value}),  # type: ignore[misc]
                [values[joint.name]],
                slides=joint.kind == "slides",
            )
        )
        stops_it = _on_stop(arms[joint.name], ranges[joint.name], free.get(joint.name, (None, None)))
        legs.append(Leg(joint=joint, motions=motions, moving=frozenset(motions[0].flows), on_stop=stops_it))
    beside = "" if cord.kind == "elastic" else beside_words(mechanism, cord, laid, chain, free)
    return StrungCord(cord=cord, mechanism=mechanism, driven=driven, stops=laid, legs=tuple(legs), beside=beside)


def _on_stop(arm_mm: float, ends: Ends, free: Free) -> bool:
    """Return whether a joint stops near the end of its range at which its cord is longest."""
    side = 1 if arm_mm > 0.0 else 0
    stop, end = free[side], ends[side]
    return stop is not None and abs(stop - end) <= NEAR_SHARE * (ends[1] - ends[0])


def _arm_mm(mechanism: Mechanism, stops: Sequence[PathStop], joint: MovingJoint, ends: Ends, cord_mm: float) -> float:
    """Return how much longer the cord gets over a joint's range, the other joints as drawn."""
    frames = [mechanism.frames_at({joint.name: end}) for end in ends]
    first, last = (taut(stand(stops, one, 1.0, cord_mm)).length_mm for one in frames)
    return last - first


def _together(
    lead: MovingJoint,
    crossed: Sequence[MovingJoint],
    arms: Mapping[str, float],
    ranges: Mapping[str, Ends],
    place: float,
) -> dict[str, float]:
    """Return where all joints are while the first is at a place: each as far from open to closed as the others."""
    low, high = ranges[lead.name]
    share = (place - low) / (high - low)
    found = {}
    for joint in crossed:
        first, last = ranges[joint.name]
        same = (arms[joint.name] > 0.0) == (arms[lead.name] > 0.0)
        found[joint.name] = first + share * (last - first) if same else last - share * (last - first)
    return found


def _driven(cord: Cord, stops: Sequence[PathStop]) -> str:
    """Return the copy that a cord moves: the one that it states, else the one at its end."""
    if not cord.drives:
        return stops[-1].copy
    part, number = part_of(cord.drives), number_of(cord.drives)
    on_way = [stop.copy for stop in stops if part_of(stop.copy) == part]
    return on_way[-1] if on_way and cord.drives == part else copy_name(part, number)


def _places(joint: MovingJoint, ends: Ends) -> list[float]:
    """Return the places of a range at which a cord is asked, the rest among them where it lies within."""
    even = {float(value) for value in np.linspace(*ends, PLACES_N)}
    rest = joint.rest_deg
    if rest is not None and ends[0] < rest < ends[1] and min(abs(rest - value) for value in even) > 1e-6:
        even.add(rest)
    return sorted(even)

"""Cords with a path: which joint each drives, on what way, over which range; or why that is not known."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Cord, Job, part_of
from planner.mechanism.cord.path.path_stop import PathStop
from planner.mechanism.cord.path.resolve_path import resolve_path
from planner.mechanism.cord.path.settled_path import settled
from planner.mechanism.cord.small_moves import Motion, motions_over
from planner.mechanism.force.driven_joint import Mass
from planner.mechanism.force.elastic import Elastic, elastic_of
from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.places.frame import Frame
from planner.mechanism.range.joint_range import Ranges
from planner.mesh import Solid
from planner.survey import Survey

PLACES_N = 13
"""A cord is followed at this many places of its joint's range, both ends among them."""
G_MM3 = 1e-3
"""Cubic centimetres of a cubic millimetre."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SettledElastic:
    """An elastic that opens a joint again; ``unknown`` says what is missing of its force."""

    cord: Cord
    stops: tuple[PathStop, ...]
    elastic: Elastic | None
    unknown: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrivenCord:
    """A cord with what it drives, as drawn; ``unknown`` says why it cannot be followed, and then the rest is empty."""

    cord: Cord
    joint: MovingJoint | None = None
    stops: tuple[PathStop, ...] = ()
    motions: tuple[Motion, ...] = ()
    moving: frozenset[str] = frozenset()
    pin_mm: float = 1.0
    tip: tuple[str, Vec3] | None = None
    tip_way: Vec3 | None = None
    masses: tuple[Mass, ...] = ()
    elastics: tuple[SettledElastic, ...] = ()
    unknown: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Known:
    """What a job's cords are read against."""

    job: Job
    solids: Mapping[str, Solid]
    surveys: Mapping[str, Survey]
    claims: Sequence[Claim]
    mechanism: Mechanism
    ranges: Ranges

    def path(self, cord: Cord) -> tuple[PathStop, ...] | str:
        """Return the stops of a cord; one sentence where they cannot be told."""
        stops = resolve_path(self.job, self.solids, self.surveys, self.claims, cord)
        if isinstance(stops, str):
            return stops
        missing = sorted({stop.copy for stop in stops} - set(self.mechanism.frames))
        if missing:
            return f"the place of {' and '.join(missing)} is not known"
        return stops

    def span(self, joint: MovingJoint) -> tuple[float, float] | None:
        """Return the range over which a cord is followed: what is needed, else what is free; None where neither is."""
        if joint.needs_deg is not None:
            return joint.needs_deg
        low, high = self.ranges.of(joint.name).free_deg
        return None if low is None or high is None else (low, high)

    def masses(self, moving: frozenset[str]) -> tuple[Mass, ...]:
        """Return what moving copies weigh as drawn, printed solid: the most that they may."""
        density = (self.job.material or self.job.materials[0]).density_g_cm3.value
        found = []
        for copy in sorted(moving):
            body = self.solids[part_of(copy)]
            if body.manifold is not None:
                found.append(Mass(copy=copy, at_mm=_centre(body), mass_g=body.volume_mm3 * G_MM3 * density))
        return tuple(found)


def driven_cords(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    mechanism: Mechanism,
    ranges: Ranges,
) -> tuple[DrivenCord, ...]:
    """Return every cord that is said to drive something; elastics go with the joint that they open."""
    known = _Known(job=job, solids=solids, surveys=surveys, claims=claims, mechanism=mechanism, ranges=ranges)
    return tuple(_driven(known, cord) for cord in job.cords if cord.kind != "elastic" and cord.pulls)


def _driven(known: _Known, cord: Cord) -> DrivenCord:
    """Return one cord on its way."""
    stops = known.path(cord)
    if isinstance(stops, str):
        return DrivenCord(cord=cord, unknown=stops)
    copy = cord.drives or stops[-1].copy
    joint = _joint_of(known.mechanism, copy)
    if joint is None:
        return DrivenCord(cord=cord, unknown=f"no joint is known that moves {copy}: state it as [[joint]]")
    if not joint.zero_known:
        return DrivenCord(cord=cord, unknown=f"the drawn angle of {joint.name} is not known: give {copy} a [[place]]")
    span = known.span(joint)
    if span is None or span[0] >= span[1]:
        return DrivenCord(cord=cord, unknown=f"the range of {joint.name} is not known: state needs_deg")
    places = [span[0] + (span[1] - span[0]) * k / (PLACES_N - 1) for k in range(PLACES_N)]

    def frames(value: float) -> Mapping[str, Frame]:
        return known.mechanism.frames_at({joint.name: value})

    try:
        motions = motions_over(frames, places, slides=joint.kind == "slides")
    except LockedError as locked:
        return DrivenCord(cord=cord, unknown=f"{joint.name} cannot be moved over what it needs: {locked}")
    poses = [known.mechanism.frames, *(motion.here for motion in motions)]
    moving = next(group for group in known.mechanism.groups if copy in group)
    at_mm = cord.grip_at_mm or known.job.part(part_of(copy)).load_at_mm
    pins = [hardware for hardware in known.job.hardware if hardware.name == joint.pin]
    return DrivenCord(
        cord=cord,
        joint=joint,
        stops=settled(stops, poses, 1.0, cord.diameter_mm),
        motions=motions,
        moving=moving,
        pin_mm=pins[0].diameter_mm / 2 if pins and joint.kind == "turns" else 1.0,
        tip=None if at_mm is None else (copy, at_mm),
        tip_way=known.job.part(part_of(copy)).load_dir,
        masses=known.masses(moving),
        elastics=tuple(_elastics(known, copy, poses)),
    )


def _elastics(known: _Known, copy: str, poses: Sequence[Mapping[str, Frame]]) -> Sequence[SettledElastic]:
    """Return the elastics that act on a copy, or on another that moves with it."""
    found = []
    group = next(group for group in known.mechanism.groups if copy in group)
    for cord in known.job.cords:
        if cord.kind != "elastic" or not cord.path:
            continue
        ends = {cord.drives or cord.path[-1].copy, cord.path[0].copy}
        if not ends & group:
            continue
        stops, elastic = known.path(cord), elastic_of(cord)
        if isinstance(stops, str) or isinstance(elastic, str):
            why = stops if isinstance(stops, str) else str(elastic)
            found.append(SettledElastic(cord=cord, stops=(), elastic=None, unknown=why))
            continue
        way = settled(stops, poses, 1.0, cord.diameter_mm)
        why = "" if elastic.known else f"how the force of {cord.name} falls is not known: state rate_n_per_mm"
        found.append(SettledElastic(cord=cord, stops=way, elastic=elastic, unknown=why))
    return found


def _joint_of(mechanism: Mechanism, copy: str) -> MovingJoint | None:
    """Return the joint that moves a copy: where it moves itself, else where its group does, else where it stands."""
    group = next((group for group in mechanism.groups if copy in group), frozenset((copy,)))
    for mine in (
        [joint for joint in mechanism.joints if joint.parts[1] == copy],
        [joint for joint in mechanism.joints if joint.parts[1] in group],
        [joint for joint in mechanism.joints if joint.parts[0] in group],
    ):
        if mine:
            return mine[0]
    return None


def _centre(solid: Solid) -> Vec3:
    """Return the centre of mass of a closed mesh, in its own frame: tetrahedra from the origin (divergence theorem)."""
    a, b, c = (solid.vertices_mm[solid.faces[:, k]] for k in range(3))
    volumes = (a * np.cross(b, c)).sum(axis=1)
    x, y, z = ((a + b + c) * volumes[:, None]).sum(axis=0) / (4.0 * volumes.sum())
    return float(x), float(y), float(z)

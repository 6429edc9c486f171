"""Whether a taut cord runs through a part between its stops, when all that it drives moves."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import manifold3d
import numpy as np

from planner.finding import Vec3
from planner.job import part_of
from planner.mechanism.cord.path.path_stop import WrapStop
from planner.mechanism.cord.placed_stop import stand
from planner.mechanism.cord.taut import Taut, taut
from planner.mechanism.cord_effects.cord_on_joint import Leg, StrungCord
from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.places.frame import Frame
from planner.mechanism.places.off_part import inside, surface_mm
from planner.mechanism.range.cord_bodies import tube
from planner.mesh import Solid

MEETS_RATIO = 0.5
"""A cord is in a part where they share more than this times its diameter cubed: a graze bends it and no more."""
BEAD_RATIO, INSIDE_SHARE = 0.4, 0.5
"""A bead of so many diameters where a cord comes to a post is inside a part with so much of itself."""
DEEP_MM, DEEP_SHARE, STEP_MM = 5.0, 0.9, 0.5
"""A knot may lie in matter, and a mouth be drawn short: less than this of a stretch within a part that leads it is no
fault (own judgement). Where about so much of the cord is in the part, places this far apart are looked at."""
OFF_ENDS = 1.0
"""So many diameters at either end of a stretch are left out: there the cord lies on what leads it."""


def crosses(ways: Sequence[StrungCord], bands: Sequence[StrungCord], solids: Mapping[str, Solid]) -> str:
    """Say what a table's cords and the elastics against them run through as drawn, and where; empty where nothing.

    All that the cords drive goes together, and is looked at open, half closed and closed. On the copies that lead a
    cord at either end of a stretch it lies; deep in one of them it has no way unless a hole is drawn.
    """
    first = ways[0]
    unit = " mm" if first.joint.kind == "slides" else "°"
    for share in (0.0, 0.5, 1.0):
        values = {leg.joint.name: _value(one, leg, share) for one in ways for leg in one.legs}
        try:
            frames = first.mechanism.frames_at(values)
        except LockedError:
            continue  # told by the joint's range
        for one in (*ways, *bands):
            cord = taut(stand(one.stops, frames, 1.0, one.cord.diameter_mm))
            said, copy = _buried(one, solids, frames, cord)
            if copy:
                return f"{one.cord.name} cannot go round the pin at {said}: there it lies inside {copy}"
            met, deep_mm = _met(one, solids, frames, cord)
            if met:
                at = f"at {values[first.joint.name]:.0f}{unit} of {first.joint.name} {one.cord.name} runs"
                deep = f"{deep_mm:.0f} mm deep through {met}, where no way is drawn for it"
                return f"{at} {deep if deep_mm else f'through {met}, which its path does not name'}"
    return ""


def _value(one: StrungCord, leg: Leg, share: float) -> float:
    """Return where a joint is when a cord has come in by a share of its way, from open to closed."""
    ends = [taut(stand(one.stops, leg.motions[k].here, 1.0, one.cord.diameter_mm)).length_mm for k in (0, -1)]
    places = leg.motions if ends[0] > ends[1] else leg.motions[::-1]
    return places[round(share * (len(places) - 1))].at_deg


def _met(one: StrungCord, solids: Mapping[str, Solid], frames: Mapping[str, Frame], cord: Taut) -> tuple[str, float]:
    """Return the first copy that a stretch of a cord runs through; empty where there is none.

    With how much of the stretch lies deep in matter, where the copy leads the cord at one of its ends; else 0.
    """
    wide = one.cord.diameter_mm
    for k in range(len(cord.contacts) - 1):
        here, there = cord.contacts[k], cord.contacts[k + 1]
        span = _span(here.leaves_mm, there.comes_mm, OFF_ENDS * wide)
        if span is None:
            continue
        rod = tube(span, wide / 2)
        ends = {one.stops[here.number].copy, one.stops[there.number].copy}
        for copy, frame in frames.items():
            shape = _shape(one.mechanism, solids, copy, frame)
            if shape is None or not _near(shape, rod):
                continue
            shared_mm3 = (shape ^ rod).volume()
            if copy not in ends and shared_mm3 > MEETS_RATIO * wide**3:
                return copy, 0.0
            if copy in ends and shared_mm3 > DEEP_SHARE * DEEP_MM * math.pi / 4.0 * wide**2:
                deep_mm = _deep_mm(solids[part_of(copy)], frame, span, wide / 2)
                if deep_mm > DEEP_MM:
                    return copy, deep_mm
    return "", 0.0


def _deep_mm(solid: Solid, frame: Frame, span: tuple[Vec3, Vec3], radius_mm: float) -> float:
    """Return how much of a stretch lies in matter with all of the cord's thickness: not on a face, nor in a groove."""
    back, (a, b) = frame.inverse(), (np.asarray(end) for end in span)
    steps_n = math.ceil(float(np.linalg.norm(b - a)) / STEP_MM)
    middles = (a + (b - a) * (k + 0.5) / steps_n for k in range(steps_n))
    places = (back.point((float(x), float(y), float(z))) for x, y, z in middles)
    deep_n = sum(surface_mm(solid, at) >= radius_mm and inside(solid, at) for at in places)
    return deep_n * float(np.linalg.norm(b - a)) / steps_n


def _buried(one: StrungCord, solids: Mapping[str, Solid], frames: Mapping[str, Frame], cord: Taut) -> tuple[str, str]:
    """Return the post that a cord lies on inside a part, as the job says it, and that part; two empty words where none.

    A hub that is round on one side only is no drum: its bore's name then means the pin in it.
    """
    bead = manifold3d.Manifold.sphere(BEAD_RATIO * one.cord.diameter_mm, 16)
    for contact in cord.contacts:
        stop = one.stops[contact.number]
        if not isinstance(stop, WrapStop) or not stop.slides:
            continue
        here = bead.translate(contact.comes_mm)
        for copy, frame in frames.items():
            shape = _shape(one.mechanism, solids, copy, frame)
            if shape is not None and _near(shape, here) and (shape ^ here).volume() > INSIDE_SHARE * here.volume():
                return stop.said, copy
    return "", ""


def _span(start: Vec3, end: Vec3, off_mm: float) -> tuple[Vec3, Vec3] | None:
    """Return a stretch without its ends; None where nothing is left of it."""
    a, b = np.asarray(start), np.asarray(end)
    long = float(np.linalg.norm(b - a))
    if long <= 2 * off_mm:
        return None
    first, last = a + (b - a) * off_mm / long, b - (b - a) * off_mm / long
    return (float(first[0]), float(first[1]), float(first[2])), (float(last[0]), float(last[1]), float(last[2]))


def _shape(mechanism: Mechanism, solids: Mapping[str, Solid], copy: str, frame: Frame) -> manifold3d.Manifold | None:
    """Return a copy in its place; None where its mesh has faults, or its angle is not known."""
    shape = solids[part_of(copy)].manifold
    return None if shape is None or copy in mechanism.placed.free else shape.transform(frame.matrix())


def _near(one: manifold3d.Manifold, other: manifold3d.Manifold) -> bool:
    """Return whether the boxes of two bodies overlap."""
    a, b = np.array(one.bounding_box()), np.array(other.bounding_box())
    return bool((a[:3] <= b[3:]).all() and (b[:3] <= a[3:]).all())

"""The loads that a part is screened under: those that are known, else what its joints suggest."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.job import Part
from planner.strength.loads.part_load import LoadCase, PartLoad, Support, answers_of, as_vec
from planner.survey import Survey

Floats = NDArray[np.float64]
AT_PLACE_MM = 1.5
"""A support this near to where a load acts is what brings the load in."""
PIN_HELD = 0.1
"""Share of a pin's length that its two ends are held on; no source."""
NEAREST_N = 3
"""So many supports are cut toward, from each load: the nearest ones."""


def known_case(pushes: Sequence[PartLoad], supports: Sequence[Support], said: str) -> LoadCase:
    """Return loads whose place and way are known, balanced by what else holds the part."""
    holds = [one for one in supports if all(_apart_mm(one.at_mm, load.at_mm) > AT_PLACE_MM for load in pushes)]
    answers = answers_of(pushes, holds)
    ways = _ways([load.at_mm for load in pushes], [one.at_mm for one in holds])
    if not holds:
        ways = _ways([pushes[0].at_mm], [load.at_mm for load in pushes[1:]])
    return LoadCase(pushes=tuple(pushes), answers=answers, ways=ways, said=said)


def stated_case(part: Part, survey: Survey, supports: Sequence[Support], load_n: float) -> LoadCase | None:
    """Return the load at the part's ``load_at_mm``; None where that is not stated or nothing holds the part.

    Without ``load_dir`` it acts across the axis of the nearest joint and the arm to it.
    """
    if part.load_at_mm is None or not supports:
        return None
    place = part.load_at_mm
    nearest = min(supports, key=lambda one: _apart_mm(one.at_mm, place))
    arm = np.subtract(place, nearest.at_mm)
    way = np.array(part.load_dir) if part.load_dir is not None else _across(arm, nearest, survey)
    force = as_vec(load_n * way / np.linalg.norm(way))
    return known_case([PartLoad(at_mm=part.load_at_mm, force_n=force)], supports, f"{load_n:g} N at its load_at_mm")


def guessed_cases(survey: Survey, supports: Sequence[Support], load_n: float) -> tuple[LoadCase, ...]:
    """Return what the joints of a part suggest: the whole load at each, held at the others; nothing without joints.

    Two joints pull on each other. Of three and more, each is pushed in turn: across its axis where it is a bore, as a
    pin presses, else along the mesh's three axes. A part with one joint is pushed at its farthest point, across the
    axis and the arm.
    """
    if not supports:
        return ()
    if len(supports) == 1:
        hull = survey.hull_mm
        far = as_vec(hull[int(((hull - np.array(supports[0].at_mm)) ** 2).sum(axis=1).argmax())])
        way = _across(np.subtract(far, supports[0].at_mm), supports[0], survey)
        push = PartLoad(at_mm=far, force_n=as_vec(load_n * way))
        return (_guessed(push, supports, f"{load_n:g} N at its far end, held at its one joint"),)
    if len(supports) == 2:
        line = np.subtract(supports[0].at_mm, supports[1].at_mm)
        force = as_vec(load_n * line / np.linalg.norm(line))
        push = PartLoad(at_mm=supports[0].at_mm, force_n=force, over=supports[0].over)
        return (_guessed(push, supports[1:], f"{load_n:g} N from one joint to the other"),)
    found = []
    for number, one in enumerate(supports):
        others = [*supports[:number], *supports[number + 1 :]]
        for way in np.eye(3) if one.axis is None else np.linalg.svd(np.array(one.axis)[None])[2][1:]:
            push = PartLoad(at_mm=one.at_mm, force_n=as_vec(load_n * way), over=one.over)
            found.append(_guessed(push, others, f"{load_n:g} N on {one.over or 'a joint'}, held at its other joints"))
    return tuple(found)


def pin_case(survey: Survey, load_n: float) -> LoadCase:
    """Return a pin pushed at its middle and held at both ends: three-point bending, in its weaker direction."""
    hull = survey.hull_mm
    low, high = hull.min(axis=0), hull.max(axis=0)
    middle, order = (low + high) / 2.0, np.argsort(high - low)
    long, thin = np.eye(3)[order[2]], np.eye(3)[order[0]]
    half = (1.0 - PIN_HELD) * float((high - low)[order[2]]) / 2.0
    ends = [Support(at_mm=as_vec(middle + sign * half * long)) for sign in (-1.0, 1.0)]
    push = PartLoad(at_mm=as_vec(middle), force_n=as_vec(load_n * thin))
    ways = tuple((as_vec(middle), one.at_mm) for one in ends)
    said = f"{load_n:g} N at its middle, held at its ends"
    return LoadCase(pushes=(push,), answers=answers_of([push], ends), ways=ways, said=said, guessed=True)


def _guessed(push: PartLoad, supports: Sequence[Support], said: str) -> LoadCase:
    """Return one load whose place and way nobody stated, in balance."""
    ways = _ways([push.at_mm], [one.at_mm for one in supports])
    return LoadCase(pushes=(push,), answers=answers_of([push], supports), ways=ways, said=said, guessed=True)


def _ways(loads: Sequence[Vec3], supports: Sequence[Vec3]) -> tuple[tuple[Vec3, Vec3], ...]:
    """Return from where to where a part is cut: from the nearest supports to each load."""
    found = []
    for at in dict.fromkeys(loads):
        near = sorted((one for one in supports if _apart_mm(one, at) > AT_PLACE_MM), key=lambda one: _apart_mm(one, at))
        found += [(one, at) for one in near[:NEAREST_N]]
    return tuple(found)


def _across(arm: Floats, support: Support, survey: Survey) -> Floats:
    """Return the unit direction across an arm and the axis of what holds it; without an axis, across the thin way."""
    axis = np.array(support.axis) if support.axis is not None else np.eye(3)[int(np.argmin(survey.size_mm))]
    way = np.cross(axis, arm)
    if np.linalg.norm(way) < 1e-6 * np.linalg.norm(arm):
        way = np.linalg.svd(arm[None])[2][1]
    return np.asarray(way / np.linalg.norm(way))


def _apart_mm(one: Vec3, other: Vec3) -> float:
    """Return how far two points lie apart."""
    return float(np.linalg.norm(np.subtract(one, other)))

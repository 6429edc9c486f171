"""The loads that a part is screened under: those that are known, else the worst that nobody has ruled out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations

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
NEAREST_N, GUESSED_NEAREST_N = 3, 2
"""So many supports are cut toward, from each load: the nearest ones."""
FAR_N, FAR_SHARE = 2, 0.6
"""So many far ends are pushed at most; the next counts where it is this share as far from joints and the first end."""
BETWEEN_SHARE = 0.25
"""The middle between two joints counts where no other joint is nearer than this share of their distance."""
TURNS = tuple(np.pi / 4.0 * n for n in range(4))
"""Directions across an arm that are tried: the worst of all is at most 8 % worse (cosine of half the step)."""


def known_case(pushes: Sequence[PartLoad], supports: Sequence[Support], said: str) -> LoadCase:
    """Return loads whose place and way are known, balanced by what else holds the part."""
    holds = [one for one in supports if all(_apart_mm(one.at_mm, load.at_mm) > AT_PLACE_MM for load in pushes)]
    answers = answers_of(pushes, holds)
    ways = _ways([load.at_mm for load in pushes], [one.at_mm for one in holds])
    if not holds:
        ways = _ways([pushes[0].at_mm], [load.at_mm for load in pushes[1:]], len(pushes))
    return LoadCase(pushes=tuple(pushes), answers=answers, ways=ways, said=said)


def stated_case(part: Part, supports: Sequence[Support], load_n: float) -> LoadCase | None:
    """Return the load at the part's ``load_at_mm`` along its ``load_dir``; None where that is not stated.

    Without ``load_dir`` it acts across the axis and the arm of the nearest joint, where the part turns there. There is
    no load where nothing holds the part.
    """
    if part.load_at_mm is None or not supports:
        return None
    ways = ways_at(part, part.load_at_mm, supports)
    if len(ways) != 1:
        return None
    force = as_vec(load_n * ways[0])
    return known_case([PartLoad(at_mm=part.load_at_mm, force_n=force)], supports, f"{load_n:g} N at its load_at_mm")


def guessed_cases(part: Part, survey: Survey, supports: Sequence[Support], load_n: float) -> tuple[LoadCase, ...]:
    """Return loads at the worst places, in the worst ways, that nobody has ruled out; nothing without joints.

    A part that takes the whole load in each of them takes it wherever it presses: at the far ends, seen from what
    holds it; in the middle between its two joints farthest apart; at each joint while the others hold; and between
    two joints that pull on each other. What is stated of place and direction is kept.
    """
    if not supports:
        return ()
    asks = asks_of(part)
    if part.load_at_mm is not None:
        found = _across(part, part.load_at_mm, supports, load_n, "at its load_at_mm")
    else:
        found = (case for each in _open_places(part, survey, supports, load_n) for case in each)
    return tuple(replace(one, asks=asks) for one in found)


def ways_at(part: Part, at_mm: Vec3, supports: Sequence[Support]) -> list[Floats]:
    """Return the directions (unit vectors) in which a load may act at a place: one where all is told."""
    return _ways_across(part, at_mm, _nearest(at_mm, supports))


def asks_of(part: Part) -> str:
    """Return the question about what a job does not state of a part's load."""
    lacks = "load_dir" if part.load_at_mm else "load_at_mm" if part.load_dir else "load_at_mm and load_dir"
    asks = f"{'Which way' if part.load_at_mm else 'Where and which way'} does the load act on {part.name}? "
    return f"{asks}State {lacks} of [[part]]."


def pin_cases(part: Part, survey: Survey, load_n: float, *, held: bool) -> tuple[LoadCase, ...]:
    """Return a pin pushed in its weaker direction: at its middle and held at both ends, which is three-point bending.

    Where nothing tells that both its ends are ``held``, it may stick out as well, pushed at one end and held at the
    other. A stated ``load_at_mm`` tells: off the ends, both of them are held.
    """
    hull = survey.hull_mm
    low, high = hull.min(axis=0), hull.max(axis=0)
    middle, order = (low + high) / 2.0, np.argsort(high - low)
    long, thin = np.eye(3)[order[2]], np.eye(3)[order[0]]
    half = (1.0 - PIN_HELD) * float((high - low)[order[2]]) / 2.0
    ends = [Support(at_mm=as_vec(middle + sign * half * long)) for sign in (-1.0, 1.0)]
    way = thin if part.load_dir is None else np.array(part.load_dir) / np.linalg.norm(part.load_dir)
    places = [(as_vec(middle), ends, "at its middle, held at its ends")]
    if part.load_at_mm is not None:
        off = float((np.array(part.load_at_mm) - middle) @ long)
        inside = abs(off) < half
        holds = ends if inside else [ends[0 if off > 0.0 else 1]]
        places = [(part.load_at_mm, holds, f"at its load_at_mm, held at {'its ends' if inside else 'its other end'}")]
    elif not held:
        places.append((ends[1].at_mm, ends[:1], "at one end, held at the other"))
    asks = (
        ""
        if held or part.load_at_mm is not None
        else (
            f"Is {part.name} held at both ends? State load_at_mm of [[part]], where the load presses it, or the bores "
            "that it goes through ([[hardware]] printed)."
        )
    )
    return tuple(
        replace(
            known_case([PartLoad(at_mm=at, force_n=as_vec(load_n * way))], holds, f"{load_n:g} N {said}"), asks=asks
        )
        for at, holds, said in places
    )


def _open_places(
    part: Part, survey: Survey, supports: Sequence[Support], load_n: float
) -> Iterator[Iterator[LoadCase]]:
    """Yield the load cases of every place at which a load that nobody placed may be worst."""
    for at in far_ends(survey, supports):
        yield _across(part, at, supports, load_n, "across its far end")
    pairs = combinations(range(len(supports)), 2)
    apart = sorted((_apart_mm(supports[a].at_mm, supports[b].at_mm), a, b) for a, b in pairs)
    if apart:
        long_mm, a, b = apart[-1]
        middle = as_vec((np.array(supports[a].at_mm) + supports[b].at_mm) / 2.0)
        if min(_apart_mm(middle, one.at_mm) for one in supports) > BETWEEN_SHARE * long_mm:
            yield _across(part, middle, supports, load_n, "across its middle")
    if part.load_dir is None:
        yield _at_joints(supports, load_n)


def _at_joints(supports: Sequence[Support], load_n: float) -> Iterator[LoadCase]:
    """Yield the whole load at each joint, held at the others; two joints pull on each other.

    Of three and more, each is pushed across its axis where it is a bore, as a pin presses, else along the mesh's axes.
    """
    if len(supports) == 2:
        line = np.subtract(supports[0].at_mm, supports[1].at_mm)
        force = as_vec(load_n * line / np.linalg.norm(line))
        push = PartLoad(at_mm=supports[0].at_mm, force_n=force, over=supports[0].over)
        yield _guessed(push, supports[1:], f"{load_n:g} N from one joint to the other")
    for number, one in enumerate(supports if len(supports) > 2 else ()):
        others = [*supports[:number], *supports[number + 1 :]]
        for way in np.eye(3) if one.axis is None else np.linalg.svd(np.array(one.axis)[None])[2][1:]:
            push = PartLoad(at_mm=one.at_mm, force_n=as_vec(load_n * way), over=one.over)
            yield _guessed(push, others, f"{load_n:g} N on {one.over or 'a joint'}, held at its other joints")


def _across(part: Part, at_mm: Vec3, supports: Sequence[Support], load_n: float, said: str) -> Iterator[LoadCase]:
    """Yield the load at a place in every direction that nobody has ruled out."""
    holds = [one for one in supports if _apart_mm(one.at_mm, at_mm) > AT_PLACE_MM]
    if not holds:
        return
    for way in _ways_across(part, at_mm, _nearest(at_mm, holds)):
        yield _guessed(PartLoad(at_mm=at_mm, force_n=as_vec(load_n * way)), holds, f"{load_n:g} N {said}")


def _nearest(at_mm: Vec3, supports: Sequence[Support]) -> Support:
    """Return what holds a part nearest to a place."""
    return min(supports, key=lambda one: _apart_mm(one.at_mm, at_mm))


def _ways_across(part: Part, at_mm: Vec3, nearest: Support) -> list[Floats]:
    """Return the directions (unit vectors) in which a load may act at a place: the one that is stated, if it is.

    Where the part turns about a joint, a load acts across its axis and the arm (the contract's default); else in every
    direction across the arm.
    """
    if part.load_dir is not None:
        return [np.array(part.load_dir) / np.linalg.norm(part.load_dir)]
    arm = np.subtract(at_mm, nearest.at_mm)
    turned = np.cross(nearest.axis, arm) if nearest.turns and nearest.axis is not None else np.zeros(3)
    if np.linalg.norm(turned) > AT_PLACE_MM:
        return [turned / np.linalg.norm(turned)]
    first, second = np.linalg.svd(arm[None])[2][1:]
    return [np.cos(turn) * first + np.sin(turn) * second for turn in TURNS]


def far_ends(survey: Survey, supports: Sequence[Support]) -> list[Vec3]:
    """Return the places of a part that lie farthest from all that holds it, the farthest first."""
    hull, taken, found = survey.hull_mm, [np.array(one.at_mm) for one in supports], list[Vec3]()
    first_mm = 0.0
    for _ in range(FAR_N):
        gaps = np.linalg.norm(hull[:, None] - np.array(taken)[None], axis=2).min(axis=1)
        far = int(gaps.argmax())
        if found and gaps[far] < FAR_SHARE * first_mm:
            break
        first_mm = first_mm or float(gaps[far])
        taken.append(hull[far])
        found.append(as_vec(hull[far]))
    return found


def _guessed(push: PartLoad, supports: Sequence[Support], said: str) -> LoadCase:
    """Return one load whose place or way nobody stated, in balance."""
    ways = _ways([push.at_mm], [one.at_mm for one in supports], GUESSED_NEAREST_N)
    return LoadCase(pushes=(push,), answers=answers_of([push], supports), ways=ways, said=said)


def _ways(loads: Sequence[Vec3], supports: Sequence[Vec3], most_n: int = NEAREST_N) -> tuple[tuple[Vec3, Vec3], ...]:
    """Return from where to where a part is cut: from the nearest supports to each load."""
    found = []
    for at in dict.fromkeys(loads):
        near = sorted((one for one in supports if _apart_mm(one, at) > AT_PLACE_MM), key=lambda one: _apart_mm(one, at))
        found += [(one, at) for one in near[:most_n]]
    return tuple(found)


def _apart_mm(one: Vec3, other: Vec3) -> float:
    """Return how far two points lie apart."""
    return float(np.linalg.norm(np.subtract(one, other)))

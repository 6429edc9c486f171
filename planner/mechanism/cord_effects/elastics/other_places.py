"""An elastic that crosses joints which a cord does not move, such as from jaw to jaw: those may stand at either end."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import product

from planner.mechanism.cord.placed_stop import stand
from planner.mechanism.cord.small_moves import Motion, motions_over
from planner.mechanism.cord.taut import taut
from planner.mechanism.cord_effects.cord_on_joint import Leg, StrungCord
from planner.mechanism.cord_effects.elastics.bands import Band
from planner.mechanism.joints.linkage import LockedError


def other_places(way: StrungCord, leg: Leg, elastics: Sequence[Band]) -> list[Leg] | str:
    """Return a leg of a cord with every joint that only its elastics cross at each of its ends; empty where none is.

    Returns
    -------
    list of Leg, or str
        All ends of all those joints, one with another; a sentence where they cannot all stand so.
    """
    other: dict[str, tuple[float, float]] = {}
    for band, _ in elastics:
        for far in band.legs:
            if far.joint.name not in way.crossed:
                other[far.joint.name] = far.motions[0].at_deg, far.motions[-1].at_deg
    if not other:
        return []
    try:
        return [
            replace(leg, motions=_motions(way, leg, dict(zip(other, ends, strict=True))))
            for ends in product(*other.values())
        ]
    except LockedError as locked:
        return f"what an elastic of {way.cord.name} does is not worked out: {locked}"


def _motions(way: StrungCord, leg: Leg, others: Mapping[str, float]) -> tuple[Motion, ...]:
    """Return the motion over a leg's range with its cord's other joints as they go along, and others where they are."""
    found: list[Motion] = []
    for k, motion in enumerate(leg.motions):
        values = {**others, **{one.joint.name: one.motions[k].at_deg for one in way.legs}}
        found += motions_over(
            lambda value, values=values: way.mechanism.frames_at({**values, leg.joint.name: value}),  # type: ignore[misc]
            [motion.at_deg],
            slides=motion.slides,
        )
    return tuple(found)


def whole_ways_mm(elastics: Sequence[Band], legs: Sequence[Leg], factor: float) -> dict[str, tuple[float, float]]:
    """Return how short and how long the way of each elastic gets over all these places, by its name."""
    found = {}
    for band, _ in elastics:
        ways = [
            taut(stand(band.stops, motion.here, factor, band.cord.diameter_mm)).length_mm
            for leg in legs
            for motion in leg.motions
        ]
        found[band.cord.name] = min(ways), max(ways)
    return found

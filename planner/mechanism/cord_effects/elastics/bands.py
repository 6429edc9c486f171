"""The elastics that work against a table's cords: which cross its joints, how many lie there, and how they run."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.job import part_of
from planner.mechanism.cord.cord_run import run_of
from planner.mechanism.cord_effects.cord_on_joint import Leg, StrungCord
from planner.mechanism.force.driven_joint import Strung
from planner.mechanism.force.elastic import elastic_of

Band = tuple[StrungCord, int]
"""An elastic on one of its ways, and how many of its table lie there side by side."""


def bands_on(ways: Sequence[StrungCord], strung: Mapping[str, StrungCord | str]) -> list[Band]:
    """Return the elastics that cross a joint which some cords cross, too."""
    names = frozenset[str]().union(*(one.crossed for one in ways))
    elastics = (one for one in strung.values() if isinstance(one, StrungCord) and one.cord.kind == "elastic")
    return [(band, _strands(band, strung)) for band in elastics if names & band.crossed]


def _strands(band: StrungCord, strung: Mapping[str, StrungCord | str]) -> int:
    """Return how many elastics of a table lie side by side on one of its ways."""
    ways = sum(part_of(name) == part_of(band.cord.name) for name in strung)
    return max(1, band.cord.count // ways)


def of_leg(elastics: Sequence[Band], leg: Leg) -> list[Band]:
    """Return the elastics that cross one joint."""
    return [band for band in elastics if leg.joint.name in band[0].crossed]


def bands_at(
    elastics: Sequence[Band], leg: Leg, factor: float, whole_mm: Mapping[str, tuple[float, float]] | None = None
) -> tuple[Strung, ...] | str:
    """Return elastics over the range of a joint, or what is not known about one of them.

    ``whole_mm`` is how short and how long the way of each gets over all joints that it crosses, by its name, where that
    is more than over this one.
    """
    found = []
    for band, strands in elastics:
        force = elastic_of(band.cord)
        if isinstance(force, str):
            return force
        run, ends = run_of(band.stops, leg.motions, factor, band.cord.diameter_mm), (whole_mm or {}).get(band.cord.name)
        found.append(
            Strung(stops=band.stops, run=run, elastic=force, strands=strands, name=band.cord.name, ends_mm=ends)
        )
    return tuple(found)

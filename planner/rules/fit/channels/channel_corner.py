"""Sharp corners in a cord's way: two straight channels of one part that meet with no bend between them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

import numpy as np

from planner.finding import Finding, Vec3, Verdict
from planner.job import Cord
from planner.survey import Bore

CORNER_LEAST_DEG = 30.0
"""A cord that turns by less leaves its way through hardly pressed on the edge; common practice, no source."""
RADIUS_LEAST = 3.0
"""A bend's inside radius over the cord's diameter, so that it is no edge to it; common practice, no source."""


def corner_findings(cord: Cord, bores: Sequence[Bore]) -> list[Finding]:
    """Return a hold for every two bores of a cord that meet at an angle: no bend guides the cord round.

    It holds at every size: an edge stays one.
    """
    found = []
    for one, other in combinations(bores, 2):
        turn_deg, at_mm = _meeting(one, other)
        if at_mm is None or turn_deg < CORNER_LEAST_DEG:
            continue
        both = f"{one.id} and {other.id} of {cord.part}"
        found.append(
            Finding(
                rule="channel.corner",
                part=cord.part,
                feature=f"{cord.name} from {one.id} to {other.id}",
                verdict=Verdict.HOLD,
                measured=turn_deg,
                limit=CORNER_LEAST_DEG,
                unit="°",
                at_mm=at_mm,
                why=f"{both} meet at {turn_deg:.0f}° in a sharp corner: {cord.name} is pressed on its edge, which "
                "drags more than a round bend and wears the cord",
                remedy=f"draw a round bend there, {RADIUS_LEAST * cord.diameter_mm:.1f} mm or more inside, or lay the "
                "way straight; where the cord runs through one of them alone, lift the hold with [[override]]",
                source="survey of the mesh; common practice, no source",
                question=f"Does {cord.name} run round the corner where {both} meet?",
            )
        )
    return found


def _meeting(one: Bore, other: Bore) -> tuple[float, Vec3 | None]:
    """Return by how many degrees a cord turns from one bore into another, and where they meet; None where they do not.

    The two axes pass each other within the bores' radii, no farther off either bore's end than that.
    """
    a, b = np.asarray(one.axis), np.asarray(other.axis)
    cos = abs(float(a @ b))
    turn_deg = math.degrees(math.acos(min(1.0, cos)))
    if turn_deg < 1.0:
        return turn_deg, None
    between = np.asarray(other.centre_mm) - np.asarray(one.centre_mm)
    along_one, along_other = np.linalg.lstsq(np.column_stack([a, -b]), between, rcond=None)[0]
    here = np.asarray(one.centre_mm) + along_one * a
    there = np.asarray(other.centre_mm) + along_other * b
    most = (one.diameter_mm + other.diameter_mm) / 2
    near = float(np.linalg.norm(here - there)) < most
    ends = ((one, along_one), (other, along_other))
    if not near or any(abs(float(along)) > bore.depth_mm / 2 + most for bore, along in ends):
        return turn_deg, None
    x, y, z = (float(value) for value in (here + there) / 2.0)
    return turn_deg, (x, y, z)

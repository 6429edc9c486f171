"""Pegs: round matter that stands out, such as a shaft, a spigot or a hub, so that it can be held against bores.

Turned inside out, a solid's pegs are bores: the same search finds them. A shaft with a flat or a keyway is one, too:
more than half round, and cut within its circle; a lever's round end, from which the lever goes on, is none.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from planner.mesh import Solid
from planner.survey.bores.around_axis import across, vec3
from planner.survey.bores.bores import PARTIAL_DEG, WHOLE_DEG, WHOLE_FACETS
from planner.survey.bores.cylinder import Cylinder
from planner.survey.bores.facets import Facets
from planner.survey.bores.fitted_circles import EXACT
from planner.survey.bores.round_search import RoundSearch
from planner.survey.file_digits import FILE_DIGITS
from planner.survey.pegs.peg import Peg

SLENDER_LEAST = 0.2
"""A peg is this share of its diameter long, at least: less is the rim of a disc. Common practice, no source."""

BESIDE_SHARE, BEYOND_SHARES, BEYOND_MM = 1.3, (0.25, 0.5), 0.3
"""An end is not free where matter stands so far from the axis, in radii, at one of these ways beyond it, in radii or
mm. The barb of a snap peg is narrower. Common practice, no source."""
BESIDE_N, BESIDE_MOST_N = 16, 7
"""So many points are looked at round the axis; where matter is at more of them than this, the end is not free."""

ALONG_SHARE = 0.5
"""An edge that runs so much along the axis, or more, bounds a round at its side."""


def pegs_of(solid: Solid, facets: Facets) -> tuple[Peg, ...]:
    """Return the pegs of a solid, those with flats too, that were drawn round to the last digits of the file."""
    inside_out = replace(solid, faces=solid.faces[:, ::-1])
    turned = replace(facets, normals=-facets.normals, concave=~facets.concave)
    search = RoundSearch(inside_out, turned)
    search.look(EXACT)
    pegs = sorted(_pegs(search), key=lambda peg: (*(round(v, 3) for v in peg.centre_mm), peg.diameter_mm))
    return tuple(replace(peg, id=f"p{number}") for number, peg in enumerate(pegs, start=1))


def _pegs(search: RoundSearch) -> Iterator[Peg]:
    """Yield the pegs among the rounds of a solid that was turned inside out."""
    for found in search.found:
        long = found.depth_mm >= SLENDER_LEAST * 2.0 * found.radius_mm
        whole = found.coverage_deg >= WHOLE_DEG
        if long and found.facets_n >= WHOLE_FACETS and (whole or _is_cut(search, found)):
            sign = 1.0 if next(value for value in found.axis if abs(value) > 1e-3) > 0 else -1.0
            yield Peg(
                id="",
                diameter_mm=round(2.0 * found.radius_mm, FILE_DIGITS),
                length_mm=round(found.depth_mm, FILE_DIGITS),
                axis=vec3(sign * found.axis),
                centre_mm=vec3(found.at((found.low + found.high) / 2)),
                coverage_deg=found.coverage_deg,
                flats_n=0 if whole else int((found.turn & ~np.roll(found.turn, 1)).sum()),
                enters=_is_free(search.solid, found, found.low, -1.0) or _is_free(search.solid, found, found.high, 1.0),
            )


def _is_free(solid: Solid, found: Cylinder, end_mm: float, way: float) -> bool:
    """Return whether nothing wider than a peg follows at one of its ends."""
    radius = found.radius_mm
    turns = 2.0 * np.pi * (np.arange(BESIDE_N) + 0.5) / BESIDE_N
    ring = BESIDE_SHARE * radius * np.column_stack([np.cos(turns), np.sin(turns)]) @ across(found.axis)
    ways = (BEYOND_MM, *(share * radius for share in BEYOND_SHARES))
    points = np.vstack([found.at(end_mm + way * beyond) + ring for beyond in ways])
    inside = solid.trimesh.contains(points).reshape(len(ways), BESIDE_N)
    return int(inside.sum(axis=1).max()) <= BESIDE_MOST_N


def _is_cut(search: RoundSearch, found: Cylinder) -> bool:
    """Return whether a round is more than half of one, and what it lacks is cut out of it, within its circle."""
    if found.coverage_deg < PARTIAL_DEG:
        return False
    facets, solid = search.facets, search.solid
    inside = np.zeros(len(solid.faces), dtype=bool)
    inside[found.faces] = True
    rim = inside[facets.pairs].sum(axis=1) == 1
    ends = solid.vertices_mm[facets.edges[rim]]
    way = ends[:, 1] - ends[:, 0]
    sides = np.abs(way @ found.axis) > ALONG_SHARE * np.linalg.norm(way, axis=1)
    pairs = facets.pairs[rim][sides]
    beside = np.where(inside[pairs[:, 0]], pairs[:, 1], pairs[:, 0])
    away = solid.corners_mm[beside].reshape(-1, 3) - found.centre
    out = np.linalg.norm(away - (away @ found.axis)[:, None] * found.axis, axis=1)
    return bool((out <= found.radius_mm + found.slack_mm).all())

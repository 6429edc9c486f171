"""Pegs: round matter that stands out, such as a shaft, a spigot or a hub, so that it can be held against bores.

Turned inside out, a solid's pegs are bores: the same search finds them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planner.mesh import Solid
from planner.survey.bores.around_axis import vec3
from planner.survey.bores.bores import WHOLE_DEG, WHOLE_FACETS
from planner.survey.bores.cylinder import Cylinder
from planner.survey.bores.facets import Facets
from planner.survey.bores.fitted_circles import EXACT
from planner.survey.bores.round_search import RoundSearch
from planner.survey.file_digits import FILE_DIGITS
from planner.survey.pegs.peg import Peg

SLENDER_LEAST = 0.2
"""A peg is this share of its diameter long, at least: less is the rim of a disc. Common practice, no source."""


def pegs_of(solid: Solid, facets: Facets) -> tuple[Peg, ...]:
    """Return the pegs of a solid that stand all round and were drawn round to the last digits of the file."""
    inside_out = replace(solid, faces=solid.faces[:, ::-1])
    turned = replace(facets, normals=-facets.normals, concave=~facets.concave)
    search = RoundSearch(inside_out, turned)
    search.look(EXACT)
    pegs = sorted(_pegs(search), key=lambda peg: (*(round(v, 3) for v in peg.centre_mm), peg.diameter_mm))
    return tuple(replace(peg, id=f"p{number}") for number, peg in enumerate(pegs, start=1))


def _pegs(search: RoundSearch) -> Iterator[Peg]:
    """Yield the pegs among the rounds of a solid that was turned inside out."""
    for found in search.found:
        if _is_whole(found) and found.depth_mm >= SLENDER_LEAST * 2.0 * found.radius_mm:
            sign = 1.0 if next(value for value in found.axis if abs(value) > 1e-3) > 0 else -1.0
            yield Peg(
                id="",
                diameter_mm=round(2.0 * found.radius_mm, FILE_DIGITS),
                length_mm=round(found.depth_mm, FILE_DIGITS),
                axis=vec3(sign * found.axis),
                centre_mm=vec3(found.at((found.low + found.high) / 2)),
            )


def _is_whole(found: Cylinder) -> bool:
    """Return whether a round stands all round in facets enough."""
    return found.coverage_deg >= WHOLE_DEG and found.facets_n >= WHOLE_FACETS

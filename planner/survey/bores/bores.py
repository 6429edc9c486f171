"""Bores: concave cylinders put together to stacks, through or blind, with the matter beside them."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.around_axis import across, vec3
from planner.survey.bores.countersinks import sink_mm
from planner.survey.bores.cylinder import Cylinder
from planner.survey.bores.cylinders import cylinders_of
from planner.survey.bores.edge_wall import with_edges
from planner.survey.bores.facets import Facets, facets_of
from planner.survey.bores.threads import threads_of
from planner.survey.rays import first_hits
from planner.survey.survey import Bore
from planner.survey.walls.solid_for_walls import shape_of

Floats = NDArray[np.float64]

WHOLE_DEG, WHOLE_FACETS = 345.0, 12
"""A bore goes this far round in this many facets; less is a possible bore."""
ROUND_LEAST = float(np.cos(np.pi / 8))
"""The inscribed over the drawn diameter: no facet of a bore is wider than 45 degrees."""
PARTIAL_DEG = 185.0
"""Half round or less is a fillet or the end of a slot."""
COAXIAL_COS = float(np.cos(np.radians(0.6)))
TOUCH_MM = 0.15
"""Steps of one stack may leave a chamfer of this length between them."""
DRILL_TIP = 0.75
"""A bore is closed where matter comes within this share of its radius beyond its end; a 118 degree tip is 0.60."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stack:
    """Coaxial cylinders that touch, along the axis."""

    cylinders: tuple[Cylinder, ...]
    through: bool


def bores_of(solid: Solid, facets: Facets | None = None) -> tuple[tuple[Bore, ...], tuple[Bore, ...]]:
    """Return the bores of a solid and its possible bores, in a fixed order; ``facets`` where they are known already.

    A bore is a concave cylinder of 12 facets or more that reaches 345 degrees or more round; one that is
    coarser, or open at a side beyond a half, is only possible. Short pieces of a curved channel are neither.
    """
    facets = facets or facets_of(solid)
    cylinders = [_oriented(c) for c in cylinders_of(solid, facets) if c.coverage_deg >= PARTIAL_DEG]
    normals = facets.normals
    whole = [
        c.coverage_deg >= WHOLE_DEG and c.facets_n >= WHOLE_FACETS and c.flat_mm > ROUND_LEAST * c.radius_mm
        for c in cylinders
    ]
    certain, pitches = threads_of(
        solid, facets, [c for c, sure in zip(cylinders, whole, strict=True) if sure], coaxial=_coaxial
    )
    partial = [c for c, sure in zip(cylinders, whole, strict=True) if not sure]
    bores = [_bores(stack, pitches) for stack in _stacks(solid, normals, certain)]
    possible = [_bores(stack, {}) for stack in _stacks(solid, normals, partial)]
    named, count = _named(bores, 0)
    shape = shape_of(solid)
    named = tuple(replace(bore, countersink_mm=sink_mm(shape, bore)) for bore in named)
    return with_edges(shape, named), with_edges(shape, _named(possible, count)[0])


def _oriented(cylinder: Cylinder) -> Cylinder:
    """Return the cylinder with an axis whose first component that is not zero is positive."""
    first = next(value for value in cylinder.axis if abs(value) > 1e-3)
    if first > 0:
        return cylinder
    return replace(
        cylinder,
        axis=-cylinder.axis,
        low=-cylinder.high,
        high=-cylinder.low,
        whole=(-cylinder.whole[1], -cylinder.whole[0]),
    )


def _apart_mm(one: Cylinder, other: Cylinder) -> float:
    """Return the distance between two parallel axes."""
    away = other.centre - one.centre
    return float(np.linalg.norm(away - (away @ one.axis) * one.axis))


def _coaxial(one: Cylinder, other: Cylinder) -> bool:
    """Return whether two cylinders share an axis."""
    slack = 0.02 + 0.01 * min(one.radius_mm, other.radius_mm)
    return abs(float(one.axis @ other.axis)) > COAXIAL_COS and _apart_mm(one, other) < slack


def _stacks(solid: Solid, normals: Floats, cylinders: list[Cylinder]) -> list[_Stack]:
    """Put touching coaxial cylinders together, and see whether each stack is open at both ends."""
    stacks: list[list[Cylinder]] = []
    for cylinder in sorted(cylinders, key=lambda c: c.low):
        for stack in stacks:
            last = stack[-1]
            if _coaxial(cylinder, last) and -TOUCH_MM < cylinder.low - last.high < TOUCH_MM:
                stack.append(cylinder)
                break
        else:
            stacks.append([cylinder])
    return [_Stack(cylinders=tuple(stack), through=_through(solid, normals, stack)) for stack in stacks]


def _through(solid: Solid, normals: Floats, stack: list[Cylinder]) -> bool:
    """Return whether both ends of a stack are open."""
    return not _closed(solid, normals, stack[0], -1.0) and not _closed(solid, normals, stack[-1], 1.0)


def _closed(solid: Solid, normals: Floats, end: Cylinder, way: float) -> bool:
    """Return whether matter closes one end: every ray along the axis meets it soon beyond the end."""
    inset = min(0.3 * end.depth_mm, end.radius_mm)
    start = end.at(end.high - inset if way > 0 else end.low + inset)
    angles = np.arange(6) * np.pi / 3
    x, y = across(end.axis)
    ring = 0.6 * end.flat_mm * (np.cos(angles)[:, None] * x + np.sin(angles)[:, None] * y)
    origins = start + np.vstack([np.zeros(3), ring])
    hits = first_hits(solid, normals, origins, np.tile(way * end.axis, (7, 1)))
    near = hits.distance_mm < inset + DRILL_TIP * end.radius_mm + 0.01
    return int(near.sum()) == len(origins)


def _bores(stack: _Stack, pitches: dict[int, float]) -> list[Bore]:
    """Return the bores of one stack, unnamed, the first along the axis first; ``pitches`` by identity of cylinders."""
    found = []
    for cylinder in stack.cylinders:
        found.append(
            Bore(
                id="",
                diameter_mm=2.0 * cylinder.flat_mm,
                drawn_diameter_mm=2.0 * cylinder.radius_mm,
                facets_n=cylinder.facets_n,
                depth_mm=cylinder.depth_mm,
                axis=vec3(cylinder.axis),
                centre_mm=vec3(cylinder.at((cylinder.low + cylinder.high) / 2)),
                through=stack.through,
                step_of=None,
                coverage_deg=cylinder.coverage_deg,
                edge_wall_mm=None,
                groove_pitch_mm=pitches.get(id(cylinder)),
            )
        )
    return found


def _named(stacks: list[list[Bore]], count: int) -> tuple[tuple[Bore, ...], int]:
    """Name bores by place, so that the same mesh always gives the same names."""
    order = sorted(stacks, key=lambda stack: ([round(v, 2) for v in stack[0].centre_mm], stack[0].axis))
    named = []
    for stack in order:
        first = f"b{count + 1}"
        for index, bore in enumerate(stack):
            count += 1
            named.append(replace(bore, id=f"b{count}", step_of=first if index else None))
    return tuple(named), count

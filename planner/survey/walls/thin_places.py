"""Thin places: how far each reaches below every thickness, and how much of the part's section it is."""

from __future__ import annotations

from dataclasses import replace

import manifold3d
import numpy as np
from numpy.typing import NDArray

from planner.survey.bores.around_axis import vec3
from planner.survey.survey import Below, Bore, ThinPlace
from planner.survey.walls.between_faces import SAMPLES_N, between_faces, lattice
from planner.survey.walls.face_regions import Region, regions
from planner.survey.walls.least_distance import settled
from planner.survey.walls.open_section import open_section_mm2
from planner.survey.walls.run_outs import running_out
from planner.survey.walls.sides import beside, between, bore_of
from planner.survey.walls.solid_for_walls import Pairs, Shape, together
from planner.survey.walls.ways_through import ways_through

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

THICK_MM = 4.0
"""Places thicker than this, as drawn, are no thin places at any size that people print."""
LEVELS_N = 12
FLAT = 1.12
"""What is no thicker than this times the thinnest is as thin: a place that soon joins a thinner one is part of it."""
PLACES_MOST = 24
CELL_MM, CELL_SPACINGS = 0.6, 2.5
FINE_MM, FINE_CELL_MM, FINE_ROUND_MM = 0.2, 0.35, 3.5
"""Small places are sampled once more: this densely, connected over so much, so far round."""
ASIDE_MM = 0.05
SMALL_MM = 6.0
NEAR_MOST = 3000
BESIDE_MM = 1.0
"""A place this near to a bore's wall lies beside it."""


def thin_places(shape: Shape, pairs: Pairs, bores: tuple[Bore, ...]) -> tuple[ThinPlace, ...]:
    """Return the thin places, thinnest first: each region of samples that is thinner than all about it."""
    if not len(pairs):
        return ()
    least = float(pairs.thickness_mm.min())
    if least >= THICK_MM / FLAT:
        pair = settled(shape, pairs.only(np.array([int(np.argmin(pairs.thickness_mm))])))
        return (_described(shape, pair, bores, pair, ()),)
    thin = pairs.only(pairs.thickness_mm <= THICK_MM)
    spacing = float(np.sqrt(shape.areas_mm2.sum() / SAMPLES_N))
    seeds: dict[int, list[Region]] = {}
    levels = np.geomspace(FLAT * least, THICK_MM, LEVELS_N)
    for region in regions(thin.middle, thin.thickness_mm, levels, max(CELL_MM, CELL_SPACINGS * spacing)):
        if region.below_mm >= FLAT * thin.thickness_mm[region.seed] * (1.0 - 1e-9):
            seeds.setdefault(region.seed, []).append(region)
    order = sorted(seeds, key=lambda seed: (thin.thickness_mm[seed], *np.round(thin.middle[seed], 3)))
    return tuple(_place(shape, thin, seed, seeds[seed], bores, spacing) for seed in order[:PLACES_MOST])


def _place(
    shape: Shape, thin: Pairs, seed: int, found: list[Region], bores: tuple[Bore, ...], spacing: float
) -> ThinPlace:
    """Return one place with its extents."""
    pair = settled(shape, thin.only(np.array([seed])))
    below = [_below(thin.only(region.rows), region.below_mm, spacing) for region in found]
    if below[0].length_mm < SMALL_MM:
        below = _finer(shape, thin, pair, bores, below)
    return replace(
        _described(shape, pair, bores, thin.only(found[0].rows), tuple(below)),
        ways=ways_through(pair, thin.only(found[-1].rows)),
    )


def _described(shape: Shape, pair: Pairs, bores: tuple[Bore, ...], about: Pairs, below: tuple[Below, ...]) -> ThinPlace:
    """Return the record of a place about its thinnest pair."""
    least = float(pair.thickness_mm[0])
    one, other = (int(bore_of(side, bores)[0]) for side in (pair.here, pair.there))
    own = bores[one].id if one == other >= 0 else None  # the crest of a thread is no wall between a bore and another
    return ThinPlace(
        thickness_mm=least,
        at_mm=vec3(pair.middle[0]),
        between=between(shape, pair, bores),
        beside=tuple(name for name in beside(about.middle, bores, BESIDE_MM + least / 2.0) if name != own),
        below=below,
        ways=ways_through(pair, about),
    )


def _below(pairs: Pairs, level: float, margin: float) -> Below:
    """Return the extents of some samples: along their longest direction, and across it."""
    points = np.concatenate([pairs.here, pairs.there])
    axes = _axes(points, pairs)
    spread = np.ptp(points @ axes.T, axis=0) + margin
    return Below(
        thickness_mm=level,
        area_mm2=float(pairs.area_mm2.sum()),
        length_mm=float(spread[0]),
        breadth_mm=float(spread[1]),
        share=1.0,
    )


def _axes(points: Floats, pairs: Pairs) -> Floats:
    """Return the unit vectors along a place and across it, (2, 3), both along its surface where it is thin."""
    through = (pairs.there - pairs.here)[int(np.argmin(pairs.thickness_mm))]
    through = through / max(float(np.linalg.norm(through)), 1e-12)
    near = points - points.mean(axis=0)
    flat = near - (near @ through)[:, None] * through
    spread = flat.T @ flat
    last = 2.0 * np.trace(spread) + 1.0  # the way through the wall comes after both, however many samples there are
    axes = np.linalg.eigh(spread + last * np.outer(through, through))[1].T
    return np.stack([axes[1], axes[0]])


def _finer(shape: Shape, thin: Pairs, pair: Pairs, bores: tuple[Bore, ...], coarse: list[Below]) -> list[Below]:
    """Return the extents of a small place from samples that lie densely about it, and its share of the section."""
    middle, least = pair.middle[0], float(pair.thickness_mm[0])
    dense = _dense(shape, thin, middle)
    dense = dense.only(bore_of(dense.here, bores) == bore_of(dense.there, bores))  # no webs; the crest of a thread
    inner = thin.only(thin.inner & (np.linalg.norm(thin.middle - middle, axis=1) < FINE_ROUND_MM))
    some = together(pair, dense, inner)
    sections = None
    result = []
    for rough in coarse:
        level = np.array([rough.thickness_mm])
        near = regions(some.middle, some.thickness_mm, level, FINE_CELL_MM)
        mine = next((region for region in near if 0 in region.rows), None)
        if mine is None or least > rough.thickness_mm:
            result.append(rough)
            continue
        fine = _below(some.only(mine.rows), rough.thickness_mm, FINE_MM)
        if fine.length_mm > 1.6 * FINE_ROUND_MM:
            result.append(rough)
            continue
        if sections is None:
            chosen = some.only(mine.rows)
            axes = _axes(np.concatenate([chosen.here, chosen.there]), chosen)
            sections = (_section_mm2(shape, middle, axes[0]), _section_mm2(shape, middle, axes[1]))
        across, along = (rough.thickness_mm * side for side in (fine.breadth_mm, fine.length_mm))
        share = max(across / sections[0] if sections[0] else 1.0, along / sections[1] if sections[1] else 1.0)
        result.append(replace(fine, share=min(1.0, share)))
    return result


def _dense(shape: Shape, thin: Pairs, middle: Floats) -> Pairs:
    """Return the walls from samples that lie densely round a point; those known, where small triangles give many."""
    corners = shape.solid.corners_mm
    near = shape.reached(middle - FINE_ROUND_MM, middle + FINE_ROUND_MM)
    if len(near) > NEAR_MOST:
        return thin.only(~thin.inner & (np.linalg.norm(thin.middle - middle, axis=1) < FINE_ROUND_MM))
    area = shape.areas_mm2[near]
    large = area > FINE_ROUND_MM**2
    small = near[~large]
    count = np.maximum(1, np.ceil(shape.areas_mm2[small] / FINE_MM**2)).astype(np.int64)
    points, which = lattice(corners[small], count)
    lots = [(points, small[which], (shape.areas_mm2[small] / count)[which])]
    for face in near[large]:
        on = _grid_on(corners[face], shape.normals[face], middle)
        lots.append((on, np.full(len(on), face), np.full(len(on), FINE_MM**2)))
    points, face, area = (np.concatenate([lot[k] for lot in lots]) for k in range(3))
    keep = np.linalg.norm(points - middle, axis=1) < FINE_ROUND_MM
    pairs = between_faces(shape, points[keep], face[keep], area[keep])
    return pairs.only(~running_out(shape, pairs))


def _grid_on(corners: Floats, normal: Floats, middle: Floats) -> Floats:
    """Return the points of a square grid on a large triangle, near a point."""
    x = (corners[1] - corners[0]) / np.linalg.norm(corners[1] - corners[0])
    y = np.cross(normal, x)
    steps = np.arange(-FINE_ROUND_MM, FINE_ROUND_MM, FINE_MM) + FINE_MM / 2
    u, v = (values.reshape(-1) for values in np.meshgrid(steps, steps))
    foot = middle - ((middle - corners[0]) @ normal) * normal
    points: Floats = foot + u[:, None] * x + v[:, None] * y
    inside = np.ones(len(points), dtype=bool)
    for k in range(3):
        inside &= np.cross(corners[(k + 1) % 3] - corners[k], points - corners[k]) @ normal >= 0
    return points[inside]


def _section_mm2(shape: Shape, at: Floats, along: Floats) -> float:
    """Return the area of the piece of the part's section, across a direction, that holds a place; 0: not known."""
    body, heights = shape.solid.manifold, (0.0, ASIDE_MM, -ASIDE_MM)  # in an end face the section is just inside
    x = np.cross(along, np.eye(3)[int(np.argmin(np.abs(along)))])
    x /= np.linalg.norm(x)
    turn = np.stack([x, np.cross(along, x), along])
    if body is None:
        corners = (shape.solid.corners_mm - at) @ turn.T
        return next((area for height in heights if (area := open_section_mm2(corners, height))), 0.0)
    turned = body.transform(np.column_stack([turn, -turn @ at]))
    spot = manifold3d.CrossSection.square((0.2, 0.2), center=True)
    for height in heights:
        pieces = [(float((p ^ spot).area()), float(p.area())) for p in turned.slice(height).decompose()]
        held = [piece for piece in pieces if piece[0] > 0.0]
        if held:
            return max(held)[1]
    return 0.0
